import type { Hydroxide } from '../alkali';
import type { Source } from '../source';

export const MODEL: Source = { text: 'M. Laliberté, J. Chem. Eng. Data 54 (2009) 1725–1760, doi 10.1021/je8008123', grade: 'B' };

/** Density of water, kg/m³, at 0–110 °C. Kell (1975), as Laliberté uses it. */
export const waterDensity = (celsius: number): number => {
  const t = celsius;
  return (
    (((((-2.8054253e-10 * t + 1.0556302e-7) * t - 4.6170461e-5) * t - 0.0079870401) * t + 16.945176) * t + 999.83952) / (1 + 0.01687985 * t)
  );
};

/** Coefficients c0 to c4 of the dissolved hydroxide's apparent specific volume. NaOH fitted to a mass fraction of 0.503, KOH to 0.519. */
const COEFFICIENTS: Readonly<Record<Hydroxide, readonly [number, number, number, number, number]>> = {
  NaOH: [319.020509469838, 528.592358475315, -0.102197896602724, 0.000350420706415566, 765.970470238438],
  KOH: [821.119043254761, 1043.20173374381, 0.112873330222752, 0.00124023636407386, 539.630388368877],
};

/** Density of a hydroxide solution by the published model, kg/m³, of a mass fraction at a temperature in °C. See `lyeDensity` for what to use. */
export const modelDensity = (hydroxide: Hydroxide, w: number, celsius: number): number => {
  const [c0, c1, c2, c3, c4] = COEFFICIENTS[hydroxide];
  const volume = (w + c2 + c3 * celsius) / ((c0 * w + c1) * Math.exp(1e-6 * (celsius + c4) ** 2));
  return 1 / ((1 - w) / waterDensity(celsius) + w * volume);
};
