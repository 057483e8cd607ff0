/** ITS-90 reference function of thermocouple type K, mV, from 0 °C (NIST SRD 60). */
const ABOVE = [
  -1.7600413686e-2, 3.8921204975e-2, 1.8558770032e-5, -9.9457592874e-8, 3.1840945719e-10, -5.6072844889e-13, 5.6075059059e-16,
  -3.2020720003e-19, 9.7151147152e-23, -1.2104721275e-26,
];
/** And below 0 °C; these from memory, held against the table at −10 and −20 °C. */
const BELOW = [
  0, 3.9450128025e-2, 2.3622373598e-5, -3.2858906784e-7, -4.9904828777e-9, -6.7509059173e-11, -5.7410327428e-13, -3.1088872894e-15,
  -1.0451609365e-17, -1.9889266878e-20, -1.6322697486e-23,
];
/** The term a₀·exp(a₁ (t − a₂)²) above 0 °C. */
const [A0, A1, A2] = [0.1185976, -1.183432e-4, 126.9686];

const COLDEST = -60;
const HOTTEST = 400;

const polynomial = (coefficients: readonly number[], x: number): number => coefficients.reduceRight((sum, one) => sum * x + one, 0);

/** Voltage of a type K pair in mV at `celsius`, its other end at 0 °C. */
export const millivoltsOfTypeK = (celsius: number): number =>
  celsius < 0 ? polynomial(BELOW, celsius) : polynomial(ABOVE, celsius) + A0 * Math.exp(A1 * (celsius - A2) ** 2);

/**
 * Temperature at the tip, °C, from the voltage in mV and the temperature of the cold junction, °C: the junction's voltage is added, never
 * its temperature (a pair is not linear). The reference function is turned round by secants, so that it errs by rounding alone.
 * `null` outside of −60 to 400 °C or with a junction no bench has.
 */
export const celsiusOfTypeK = (millivolts: number, coldJunction: number): number | null => {
  if (!(coldJunction >= -20 && coldJunction <= 85)) return null;
  const whole = millivolts + millivoltsOfTypeK(coldJunction);
  if (!(whole >= millivoltsOfTypeK(COLDEST) && whole <= millivoltsOfTypeK(HOTTEST))) return null;
  let [before, celsius] = [0, whole / 0.041];
  for (let step = 0; step < 12 && Math.abs(celsius - before) > 1e-9; step += 1) {
    const [there, here] = [millivoltsOfTypeK(before), millivoltsOfTypeK(celsius)];
    if (here === there) break;
    [before, celsius] = [celsius, celsius - ((here - whole) * (celsius - before)) / (here - there)];
  }
  return celsius;
};
