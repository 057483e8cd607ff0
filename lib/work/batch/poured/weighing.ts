import { weighingSpread } from '#lib/measure/metrology';
import type { MassError } from '#lib/soap/poured/types';
import type { InstrumentId } from '#lib/units/id';
import { massOfText } from '#lib/units/mass-text';
import { own } from '../own';
import type { BatchState, Contribution } from '../state';
import type { ScaleBasis } from './basis';

const GRAM = 1000;

/** Two readings make a weighing: each has its part of what a weighing cannot do better than. */
const PER_READING = Math.SQRT1_2;

/** Standard uncertainty of one settled reading, grams: resolution and repeatability. `step` in mg. */
export const readingSpread = (scale: ScaleBasis | undefined, step: number): number => {
  const repeatability = scale === undefined || scale.repeatability === null ? null : Number(scale.repeatability);
  return (PER_READING * weighingSpread(repeatability, step)) / GRAM;
};

/** A scale that zeroed or tared itself is within a quarter of its interval (OIML R 76-1, 4.5.2 and 4.6.3), grams. */
export const tareSpread = (step: number): number => (0.25 * step) / Math.sqrt(3) / GRAM;

/**
 * How far a scale's gain may be off, as a fraction. Never checked: gravity alone differs by 0.1 % between two countries, so much and no
 * less; checked in another batch, a third of it. Ours, no source. Buoyancy of air is common to all and ignored.
 */
const GAIN = { never: 0.001, earlier: 0.0003 } as const;

interface Gain {
  readonly u: number;
  readonly checked: boolean;
}

/** From the newest check in this batch: what it was off, since weights are not corrected for it, and what the check itself could tell. */
export const gainOf = (state: BatchState, instrument: InstrumentId, scale: ScaleBasis | undefined, used: readonly Contribution[]): Gain => {
  const check = own(state.checks, instrument);
  if (check !== undefined && check.nominal > 0) {
    const step = scale?.division ?? used[0]?.weighed?.step ?? 0;
    const told = readingSpread(scale, step) * GRAM * Math.SQRT2;
    return { u: Math.hypot(check.difference, told) / check.nominal, checked: true };
  }
  const checked = used.some(({ weighed }) => weighed?.checked === true);
  return { u: checked ? GAIN.earlier : GAIN.never, checked };
};

/** A typed weight comes from a scale nobody knows: its last digit, and twice the gain of one that was never checked. Ours, no source. */
const TYPED_GAIN = 2 * GAIN.never;
/** A weight typed without a digit to go by is to the gram. */
const TYPED_STEP = 1000;

export const typedSpread = ({ net, typed }: Pick<Contribution, 'net' | 'typed'>): number => {
  const step = typed === undefined ? TYPED_STEP : (massOfText(typed.text, typed.unit)?.step ?? TYPED_STEP);
  return Math.hypot(weighingSpread(null, step), TYPED_GAIN * net) / GRAM;
};

/** A weighing still to come ends anywhere within its tolerance. */
export const toComeSpread = (tolerance: number): number => tolerance / Math.sqrt(3) / GRAM;

/** Effects of one cause on the lines, grams; nothing without an effect. */
export const errorOf = (cause: MassError['cause'], of: string, effect: ReadonlyMap<number, number>): readonly MassError[] => {
  const lines = [...effect].filter(([, grams]) => grams !== 0).map(([line, grams]) => ({ line, grams }));
  return lines.length === 0 ? [] : [{ cause, of, effect: lines }];
};
