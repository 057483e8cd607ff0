/** Day at which the water that stays is counted (`r`): late enough that a bar is near its end, early enough that lots are still weighed. */
const REFERENCE_DAY = 60;
const LN_REFERENCE = Math.log(REFERENCE_DAY);

const LN: readonly number[] = Array.from({ length: 200 }, (_, day) => Math.log(day));
const lnOf = (day: number): number => LN[day] ?? Math.log(day);

const spent = (lnT: number, u: number, power: number): number => 1 - Math.exp(-Math.exp(power * (lnT - u)));

/** Share of the loss of day 60 that is lost by day t, under a stretched exponential with ln τ = u and ln β = v. */
export const lostBy = (t: number, u: number, v: number): number => {
  const power = Math.exp(v);
  return t <= 0 ? 0 : spent(Math.log(t), u, power) / spent(LN_REFERENCE, u, power);
};

/** The same for every whole day from 0: many ways are drawn. */
export const lostByDay = (days: number, u: number, v: number): Float64Array => {
  const power = Math.exp(v);
  const whole = spent(LN_REFERENCE, u, power);
  const all = new Float64Array(days + 1);
  for (let day = 1; day <= days; day += 1) all[day] = spent(lnOf(day), u, power) / whole;
  return all;
};

/** Water for each gram of dry matter at which `r` is believed, and by how much a bar that begins wetter ends wetter. */
const REFERENCE_WATER = 0.45;
const WETTER = 0.2;

/**
 * What is added to `r` for a bar of so much water: what stays is mostly what the room leaves in any bar, and a fifth of what there was
 * beyond it. Without this a bar of 40 % lye would gain weight. A judgement, from the time constants of bars of usual size.
 */
const staysBeyond = (water: number): number => WETTER * (water / (1 - water) - REFERENCE_WATER);

/** Everything lost at day 60 under an `r`, as a fraction of the cut weight. */
export const lossOf = (r: number, water: number): number => water - (r + staysBeyond(water)) * (1 - water);
