const KELVIN = 273.15;
/** The reference temperature of the two-constant law, K. */
const T25 = 298.15;
const COLDEST = -60;
const HOTTEST = 200;

const inReach = (kelvin: number): number | null => {
  const celsius = kelvin - KELVIN;
  return celsius >= COLDEST && celsius <= HOTTEST ? celsius : null;
};

/** The constants of Steinhart and Hart, 1/K. */
export interface NtcLaw {
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

/** A point of a data sheet's table: ohms at °C. */
export type NtcPoint = readonly [ohms: number, celsius: number];

/** The law through three points of a table. Throws `RangeError` when they are not three falling resistances. */
export const ntcLaw = (points: readonly [NtcPoint, NtcPoint, NtcPoint]): NtcLaw => {
  const [[r1, t1], [r2, t2], [r3, t3]] = points.toSorted((one, other) => one[1] - other[1]) as [NtcPoint, NtcPoint, NtcPoint];
  if (!(r1 > r2 && r2 > r3 && r3 > 0 && t1 < t2 && t2 < t3 && t1 > -KELVIN))
    throw new RangeError('a thermistor has less resistance the warmer it is, at three temperatures');
  const [l1, l2, l3] = [Math.log(r1), Math.log(r2), Math.log(r3)];
  const [y1, y2, y3] = [1 / (t1 + KELVIN), 1 / (t2 + KELVIN), 1 / (t3 + KELVIN)];
  const [g2, g3] = [(y2 - y1) / (l2 - l1), (y3 - y1) / (l3 - l1)];
  const c = (g3 - g2) / (l3 - l2) / (l1 + l2 + l3);
  const b = g2 - c * (l1 * l1 + l1 * l2 + l2 * l2);
  return { a: y1 - (b + l1 * l1 * c) * l1, b, c };
};

/**
 * Temperature of a thermistor by Steinhart and Hart (1968): 1/T = A + B ln R + C (ln R)³. `ohms` above 0; the three constants from its data
 * sheet, 1/K. °C, or `null` where that is no temperature a vessel or room has (−60 to 200 °C).
 */
export const celsiusOfNtc = (ohms: number, { a, b, c }: NtcLaw): number | null => {
  if (!(ohms > 0) || !Number.isFinite(ohms)) return null;
  const ln = Math.log(ohms);
  return inReach(1 / (a + b * ln + c * ln ** 3));
};

/** The same by the law of two constants, coarser: 1/T = 1/298.15 K + ln(R/R₂₅)/B. `r25` in ohms, `beta` in K. */
export const celsiusOfNtcBeta = (ohms: number, r25: number, beta: number): number | null => {
  if (!(ohms > 0 && r25 > 0 && beta > 0) || !Number.isFinite(ohms)) return null;
  return inReach(1 / (1 / T25 + Math.log(ohms / r25) / beta));
};
