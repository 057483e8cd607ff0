import { meanOf } from '#lib/units/sum';
import type { Source } from '../source';
import { allowableVariation, HANDBOOK_SOURCE, handbookPlan, VARIATION_SOURCE } from './plans';
import { checkedSample, deviationOf, isBelow, type NetSample } from './sample';

interface Held {
  readonly holds: boolean;
  readonly source: Source;
}

/** One step of the check, errors being net weight less label weight in grams. */
export type HandbookStep =
  | ({ readonly kind: 'enough'; readonly weighed: number; readonly needed: number; readonly lot: number } & Held)
  /** Errors below −MAV: none. */
  | ({ readonly kind: 'individual'; readonly variation: number; readonly limit: number; readonly found: readonly number[] } & Held)
  /** The mean error, against minus the sample error limit: factor times deviation. */
  | ({
      readonly kind: 'mean';
      readonly mean: number;
      readonly deviation: number;
      readonly factor: number;
      readonly of: number;
      readonly errorLimit: number;
    } & Held);

export interface HandbookCheck {
  readonly steps: readonly HandbookStep[];
  /** `not-known`: no allowable variation is known for a label this heavy. */
  readonly verdict: 'passes' | 'fails' | 'not-enough' | 'not-known';
}

/**
 * A lot against its label by NIST Handbook 133, category A, both requirements: no unreasonable minus error, and a mean error not below minus
 * the sample error limit. Taken strictly: no package beyond the allowable variation, whatever the sample. @throws RangeError
 */
export const checkByHandbook = (given: NetSample): HandbookCheck => {
  const { nominal, weights, lot } = checkedSample(given);
  const { sample, factor } = handbookPlan(lot);
  const drawn = weights.slice(0, sample);
  const enough: HandbookStep = {
    kind: 'enough',
    weighed: weights.length,
    needed: sample,
    lot,
    holds: drawn.length >= sample,
    source: HANDBOOK_SOURCE,
  };
  const variation = allowableVariation(nominal);
  if (variation === null) return { steps: [enough], verdict: 'not-known' };
  const limit = nominal - variation;
  const found = weights.filter((weight) => isBelow(weight, limit));
  const steps: HandbookStep[] = [
    enough,
    { kind: 'individual', variation, limit, found, holds: found.length === 0, source: VARIATION_SOURCE },
  ];
  if (drawn.length > 0) {
    const errors = drawn.map((weight) => weight - nominal);
    const [mean, deviation] = [meanOf(errors), deviationOf(errors)];
    const errorLimit = (factor ?? 0) * deviation;
    const holds = !isBelow(mean, -errorLimit);
    steps.push({ kind: 'mean', mean, deviation, factor: factor ?? 0, of: drawn.length, errorLimit, holds, source: HANDBOOK_SOURCE });
  }
  if (found.length > 0) return { steps, verdict: 'fails' };
  if (!enough.holds) return { steps, verdict: 'not-enough' };
  return { steps, verdict: steps.every(({ holds }) => holds) ? 'passes' : 'fails' };
};
