import { lnDifference, straight } from './power';
import type { Fit, FittedLaw } from './fit';
import type { Doubt, Law } from './types';

export interface Moments {
  readonly mean: number;
  readonly variance: number;
}

/** What the laws together say, each counted by its share: the doubt about k, the power and the room is in the variance. */
const mix = (parts: readonly { readonly share: number; readonly celsius: number; readonly variance: number }[]): Moments => {
  let [mean, square] = [0, 0];
  for (const { share, celsius, variance } of parts) {
    mean += share * celsius;
    square += share * (variance + celsius * celsius);
  }
  return { mean, variance: Math.max(0, square - mean * mean) };
};

/** The vessel `after` seconds from the newest block. */
export const predict = ({ laws }: Fit, after: number): Moments =>
  mix(
    laws.map((law) => {
      const lnU = lnDifference(law.z - law.k * after, law.power);
      const variance = Math.exp(2 * law.power * lnU) * (law.uu - 2 * after * law.uk + after * after * law.kk);
      return { share: law.share, celsius: law.room + law.side * Math.exp(lnU), variance };
    }),
  );

/** The vessel `after` seconds from a moment at which it was brought to `from`, under the laws found for it. */
export const predictFrom = (laws: readonly Law[], from: number, after: number): Moments =>
  mix(
    laws.map(({ share, power, room, k, uK }) => {
      const u = from - room;
      if (Math.abs(u) < 1e-6) return { share, celsius: from, variance: 0 };
      const lnU = lnDifference(straight(Math.log(Math.abs(u)), power) - k * after, power);
      return { share, celsius: room + Math.sign(u) * Math.exp(lnU), variance: Math.exp(2 * power * lnU) * (after * uK) ** 2 };
    }),
  );

/** Standard deviation in K: of the laws, and of what they do not know. `gone`: degrees from now to then. */
export const deviation = ({ variance }: Moments, gone: number, after: number, doubt: Doubt): number => {
  const unknown = doubt.rest + doubt.perDegree * Math.sqrt(Math.max(1, after / LONG_S)) * Math.abs(gone);
  return Math.sqrt(variance + unknown * unknown) * doubt.times;
};
/** Up to here what the laws do not know grows with the degrees gone alone. */
const LONG_S = 1200;

export const lawOf = ({ share, power, room, k, kk }: FittedLaw): Law => ({ share, power, room, k, uK: Math.sqrt(kk) });
