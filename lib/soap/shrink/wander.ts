/**
 * What a lot does that no smooth law knows: a wet week, a moved shelf. Two kinds of room, each a Gaussian process that starts at nothing
 * when the bar is cut.
 */
export interface Wander {
  /** How much it is believed beforehand. */
  readonly prior: number;
  /** Standard deviation far from cutting, as a fraction of the cut weight, and days over which it grows. */
  readonly size: number;
  readonly growth: number;
}

/** A room that stays as it is, and one that changes (season, another shelf). Tuned with the beliefs in `maker.ts`. */
export const ROOMS: readonly [quiet: Wander, moved: Wander] = [
  { prior: 0.75, size: 0.007, growth: 90 },
  { prior: 0.25, size: 0.025, growth: 40 },
];

const grown = (t: number, over: number): number => 1 - Math.exp(-t / over);

/** Day-to-day weather: its size and how long it is remembered, in days. */
const WEATHER = { size: 0.002, days: 5 } as const;
/** How long a room is remembered, days. */
const ROOM_DAYS = 40;

/** Covariance of what two days have in common. */
export const wanderTogether = ({ size, growth }: Wander, s: number, t: number): number => {
  const apart = Math.abs(s - t);
  const weather = WEATHER.size ** 2 * grown(s, WEATHER.days) * grown(t, WEATHER.days) * Math.exp(-apart / WEATHER.days);
  return weather + size ** 2 * grown(s, growth) * grown(t, growth) * Math.exp(-apart / ROOM_DAYS);
};

/** All of them for some days, row by row. */
export const wanderMatrix = (room: Wander, days: readonly number[]): Float64Array => {
  const n = days.length;
  const all = new Float64Array(n * n);
  for (const [i, s] of days.entries()) for (const [j, t] of days.entries()) all[i * n + j] = wanderTogether(room, s, t);
  return all;
};
