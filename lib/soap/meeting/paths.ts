import { deviation, predictFrom } from '../cooling/mixture';
import type { Ahead, Forecast } from '../cooling/types';
import type { ToCome } from './types';

/** °C at each of the forecast's moments. */
export type Path = readonly number[];

const Z95 = 1.96;

/** Middles of so many equally likely parts of the standard normal distribution, its upper half; the outermost stands at an interval's end. */
const mirrored = (upper: readonly number[]): readonly number[] => [...upper.toReversed().map((z) => -z), 0, ...upper];
const FINE = mirrored([0.1196, 0.241, 0.3661, 0.4972, 0.6375, 0.7916, 0.9674, 1.1798, 1.4652, 1.9808]);
const COARSE = mirrored([0.2822, 0.5895, 0.9674, 1.5932]);
export type Grain = 'fine' | 'coarse';
const grainOf = (grain: Grain): readonly number[] => (grain === 'fine' ? FINE : COARSE);

/** What the pot comes to once all is in it. */
export const poured = (celsius: number, toCome: ToCome | null): number =>
  toCome === null ? celsius : (1 - toCome.share) * celsius + toCome.share * toCome.celsius;

/** What is in the pot now must be so warm for all of it to be as warm as wished. */
export const beforePouring = (wished: number, toCome: ToCome | null): number =>
  toCome === null ? wished : (wished - toCome.share * toCome.celsius) / (1 - toCome.share);

/** Ways on which the vessel may go, with what is still to come poured in. */
export const pathsOf = ({ ahead }: Forecast, toCome: ToCome | null, grain: Grain): readonly Path[] =>
  grainOf(grain).map((z) => ahead.map((one) => poured(along(one, z), toCome)));

const along = ({ low, middle, high }: Ahead, z: number): number => middle + (z / Z95) * (z > 0 ? high - middle : middle - low);

/** An act that brings the vessel to a temperature at a moment. */
export interface Brought {
  readonly to: number;
  readonly start: number;
}

/** The same ways, with the vessel brought to a temperature at a moment, and cooling on from there under its own law. */
export const pathsAfter = (forecast: Forecast, { to, start }: Brought, toCome: ToCome | null, grain: Grain): readonly Path[] => {
  const { ahead, laws, doubt } = forecast;
  const from = ahead.map(({ after }) => {
    if (after < start) return null;
    const then = predictFrom(laws, to, after - start);
    return { middle: then.mean, sd: deviation(then, to - then.mean, after - start, doubt) };
  });
  return grainOf(grain).map((z) =>
    ahead.map((one, i) => {
      const then = from[i] ?? null;
      return poured(then === null ? along(one, z) : then.middle + z * then.sd, toCome);
    }),
  );
};
