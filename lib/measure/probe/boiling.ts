/** IAPWS-IF97, region 4, equation 31: saturation temperature of water from pressure. Coefficients from memory, held against its table 36. */
const N = [
  1167.0521452767, -724213.16703206, -17.073846940092, 12020.82470247, -3232555.0322333, 14.91510861353, -4823.2657361591, 405113.40542057,
  -0.23855557567849, 650.17534844798,
] as const;

/** Boiling temperature of pure water, °C, at an absolute pressure in pascals, from 20 kPa to 200 kPa. Throws `RangeError` outside. */
export const boilingAt = (pascals: number): number => {
  if (!(pascals >= 20_000 && pascals <= 200_000)) throw new RangeError('air pressure lies between 20 and 200 kPa');
  const beta = (pascals / 1e6) ** 0.25;
  const e = beta * beta + N[2] * beta + N[5];
  const f = N[0] * beta * beta + N[3] * beta + N[6];
  const g = N[1] * beta * beta + N[4] * beta + N[7];
  const d = (2 * g) / (-f - Math.sqrt(f * f - 4 * e * g));
  const root = (N[9] + d) ** 2 - 4 * (N[8] + N[9] * d);
  return (N[9] + d - Math.sqrt(root)) / 2 - 273.15;
};

/** Metres. */
export const LOWEST = -400;
export const HIGHEST = 6_000;

/** Mean air pressure in pascals at an altitude in metres, −400 to 6,000: International Standard Atmosphere (ISO 2533). Throws `RangeError` outside. */
export const pressureAt = (metres: number): number => {
  if (!(metres >= LOWEST && metres <= HIGHEST)) throw new RangeError('an altitude lies between −400 and 6,000 m');
  return 101_325 * (1 - (0.0065 * metres) / 288.15) ** 5.25588;
};

/** What weather may make of it: ±2 kPa of air pressure (a judgement) is about ±0.6 °C at sea level. */
const WEATHER_PA = 2_000;

/** Where water boils at an altitude, °C, with the half-width that weather gives it. Whoever reads a barometer uses `boilingAt`. */
export const boilingPoint = (metres: number): { readonly celsius: number; readonly within: number } => {
  const pressure = pressureAt(metres);
  return { celsius: boilingAt(pressure), within: (boilingAt(pressure + WEATHER_PA) - boilingAt(pressure - WEATHER_PA)) / 2 };
};
