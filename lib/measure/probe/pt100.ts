/** IEC 60751, industrial platinum sensors: R(t) = R₀ (1 + A t + B t² + C (t − 100) t³), the last term only below 0 °C. */
const A = 3.9083e-3;
const B = -5.775e-7;
const C = -4.183e-12;
const R0 = 100;

/** Where a probe in a vessel or a room can be; the standard reaches from −200 to 850 °C. °C. */
const COLDEST = -60;
const HOTTEST = 260;

/** Resistance of a Pt100 in ohms at `celsius`. */
export const ohmsOfPt100 = (celsius: number): number =>
  R0 * (1 + A * celsius + B * celsius ** 2 + (celsius < 0 ? C * (celsius - 100) * celsius ** 3 : 0));

const slope = (celsius: number): number => R0 * (A + 2 * B * celsius + (celsius < 0 ? C * (4 * celsius ** 3 - 300 * celsius ** 2) : 0));

/** Temperature of a Pt100, °C, from its resistance in ohms; `null` outside of −60 to 260 °C: shorted, broken, or another sensor. */
export const celsiusOfPt100 = (ohms: number): number | null => {
  if (!Number.isFinite(ohms)) return null;
  // Above 0 °C the quadratic's own root, exact; below, a start that Newton's steps better to rounding.
  let celsius = (-A + Math.sqrt(Math.max(0, A * A - 4 * B * (1 - ohms / R0)))) / (2 * B);
  for (let step = 0; celsius < 0 && step < 4; step += 1) celsius -= (ohmsOfPt100(celsius) - ohms) / slope(celsius);
  return celsius >= COLDEST && celsius <= HOTTEST ? celsius : null;
};
