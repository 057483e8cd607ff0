import { meanOf } from '#lib/units/sum';

/**
 * Control charts of single values: individuals and moving range (ISO 7870-2; NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2).
 * Limits come from the mean moving range of two neighbours, so that a slow drift does not widen them.
 */

/** Mean range of two values of a normal distribution, in standard deviations: 2/√π. */
const D2 = 1.128;
/** The upper limit of a moving range of two, in mean moving ranges: 1 + 3·d₃/d₂. */
const D4 = 3.267;
/** Half the width between the limits, in standard deviations. */
const REACH = 3;

export interface ControlChart {
  readonly centre: number;
  /** Standard deviation by the moving ranges; 0 where all values are one. */
  readonly sigma: number;
  readonly lower: number;
  readonly upper: number;
  /** |xᵢ − xᵢ₋₁|, one fewer than values. */
  readonly ranges: readonly number[];
  readonly rangeCentre: number;
  readonly rangeUpper: number;
  readonly signals: readonly Signal[];
}

/** Rules of the Western Electric Company's handbook (1956), by what they look for; `range-beyond`: a moving range over its own limit. */
const RULES = ['one-beyond-three', 'two-of-three-beyond-two', 'four-of-five-beyond-one', 'eight-on-one-side', 'range-beyond'] as const;
export type Rule = (typeof RULES)[number];

export interface Signal {
  readonly rule: Rule;
  /** Place of the value at which it first shows. */
  readonly at: number;
  readonly side: 'above' | 'below';
}

/** Fewer values say nothing of how much they scatter. */
const LEAST = 3;

/** The chart of values in their order; `null` of fewer than three. */
export const controlChart = (values: readonly number[]): ControlChart | null => {
  if (values.length < LEAST) return null;
  const centre = meanOf(values);
  const ranges = values.slice(1).map((value, at) => Math.abs(value - (values[at] ?? value)));
  const rangeCentre = meanOf(ranges);
  const sigma = rangeCentre / D2;
  const rangeUpper = D4 * rangeCentre;
  return {
    centre,
    sigma,
    lower: centre - REACH * sigma,
    upper: centre + REACH * sigma,
    ranges,
    rangeCentre,
    rangeUpper,
    signals:
      sigma === 0 ? [] : [...signalsIn(values.map((value) => (value - centre) / sigma)), ...rangesBeyond(values, ranges, rangeUpper)],
  };
};

/** A rule: of `of` neighbours at least `least` lie further than `beyond` standard deviations from the mean, all on one side. */
interface Run {
  readonly rule: Rule;
  readonly of: number;
  readonly least: number;
  readonly beyond: number;
}

const RUNS: readonly Run[] = [
  { rule: 'one-beyond-three', of: 1, least: 1, beyond: 3 },
  { rule: 'two-of-three-beyond-two', of: 3, least: 2, beyond: 2 },
  { rule: 'four-of-five-beyond-one', of: 5, least: 4, beyond: 1 },
  { rule: 'eight-on-one-side', of: 8, least: 8, beyond: 0 },
];

/** Each rule where it begins to hold: as long as it goes on holding it is one signal. */
const signalsIn = (deviations: readonly number[]): readonly Signal[] =>
  RUNS.flatMap((run) =>
    (['above', 'below'] as const).flatMap((side) => {
      const sign = side === 'above' ? 1 : -1;
      const holds = deviations.map((deviation, at) => {
        // The newest of them is one of those that lie beyond: else the signal was there before it.
        if (!(sign * deviation > run.beyond) || at + 1 < run.of) return false;
        return deviations.slice(at + 1 - run.of, at + 1).filter((one) => sign * one > run.beyond).length >= run.least;
      });
      return holds.flatMap((now, at) => (now && !(holds[at - 1] ?? false) ? [{ rule: run.rule, at, side }] : []));
    }),
  );

const rangesBeyond = (values: readonly number[], ranges: readonly number[], upper: number): readonly Signal[] =>
  ranges.flatMap((range, at) =>
    range > upper
      ? [
          {
            rule: 'range-beyond' as const,
            at: at + 1,
            side: (values[at + 1] ?? 0) > (values[at] ?? 0) ? ('above' as const) : ('below' as const),
          },
        ]
      : [],
  );
