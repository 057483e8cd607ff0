import { meanOf } from '#lib/units/sum';
import type { Source } from '../source';
import { averagePlan, CONTENTS_SOURCE, GUIDANCE_SHARE, GUIDANCE_SOURCE, MEAN_SOURCE, WHOLE_LOT_SHARE, WHOLE_SOURCE } from './plans';
import { checkedSample, deviationOf, isBelow, type NetSample } from './sample';
import { tolerableError } from './tolerable';

/** One step of a check: what it looked at, with every figure of its arithmetic, and whether it holds. */
export type AverageStep =
  /** More bars are to be weighed before anything can be said. */
  | ({ readonly kind: 'enough'; readonly weighed: number; readonly needed: number; readonly lot: number; readonly whole: boolean } & Held)
  /** Bars below Qn − TNE, and how many may be. */
  | ({
      readonly kind: 'below-tne';
      readonly limit: number;
      readonly tne: number;
      readonly found: number;
      readonly of: number;
      readonly allowed: number;
    } & Held)
  /** Bars below Qn − 2·TNE: none may carry the mark, whatever the lot does. */
  | ({ readonly kind: 'below-twice'; readonly limit: number; readonly found: readonly number[] } & Held)
  /** The mean, against Qn less a factor times the deviation; factor 0 where the whole lot is weighed. */
  | ({
      readonly kind: 'mean';
      readonly mean: number;
      readonly deviation: number;
      readonly factor: number;
      readonly of: number;
      readonly limit: number;
    } & Held)
  /** Packers' guidance: more below Qn − TNE than 2.5 in 100 is no failure of the reference test, and said. */
  | ({ readonly kind: 'guidance'; readonly found: number; readonly of: number; readonly allowed: number } & Held);

interface Held {
  readonly holds: boolean;
  readonly source: Source;
}

export interface AverageCheck {
  readonly steps: readonly AverageStep[];
  /** `passes` the reference test; `fails` it; `not-enough` was weighed. */
  readonly verdict: 'passes' | 'fails' | 'not-enough';
}

const DIRECTIVE = (text: string): Source => ({ text: `Council Directive 76/211/EEC ${text}`, grade: 'A' });

/**
 * A lot against its label by the EU and UK average system. Under 100 bars every one is weighed: at most 5 in 100 below Qn − TNE, none below
 * Qn − 2·TNE, mean at least Qn without any allowance. From 100 by the sample plans; the mean is looked at on the first 30 or 50 drawn.
 * @throws RangeError for figures that cannot be, and outside 5 g to 10 kg
 */
export const checkByAverage = (given: NetSample): AverageCheck => {
  const { nominal, weights, lot } = checkedSample(given);
  const plan = averagePlan(lot);
  const tne = tolerableError(nominal);
  const needed = plan.contents === null ? lot : Math.max(plan.contents.sample, plan.mean?.sample ?? 0);
  const whole = plan.contents === null || weights.length === lot;
  const enough: AverageStep = {
    kind: 'enough',
    weighed: weights.length,
    needed,
    lot,
    whole: plan.contents === null,
    holds: weights.length >= needed,
    source: plan.contents === null ? WHOLE_SOURCE : CONTENTS_SOURCE,
  };
  const first = nominal - tne.grams;
  const twice = nominal - 2 * tne.grams;
  const contents = plan.contents === null ? weights : weights.slice(0, plan.contents.sample);
  const found = contents.filter((weight) => isBelow(weight, first)).length;
  const allowed = plan.contents?.accept ?? Math.floor(WHOLE_LOT_SHARE * lot);
  const far = weights.filter((weight) => isBelow(weight, twice));
  const forMean = plan.mean === null || whole ? weights : weights.slice(0, plan.mean.sample);
  const factor = plan.mean === null || whole ? 0 : plan.mean.factor;
  const steps: AverageStep[] = [
    enough,
    {
      kind: 'below-tne',
      limit: first,
      tne: tne.grams,
      found,
      of: contents.length,
      allowed,
      holds: found <= allowed,
      source: plan.contents === null ? WHOLE_SOURCE : CONTENTS_SOURCE,
    },
    { kind: 'below-twice', limit: twice, found: far, holds: far.length === 0, source: DIRECTIVE('Annex I, 1.3') },
  ];
  if (forMean.length > 0) {
    const [mean, deviation] = [meanOf(forMean), deviationOf(forMean)];
    const limit = nominal - factor * deviation;
    const source = plan.mean === null ? WHOLE_SOURCE : MEAN_SOURCE;
    steps.push({ kind: 'mean', mean, deviation, factor, of: forMean.length, limit, holds: !isBelow(mean, limit), source });
  }
  const guided = Math.floor(GUIDANCE_SHARE * contents.length);
  steps.push({ kind: 'guidance', found, of: contents.length, allowed: guided, holds: found <= guided, source: GUIDANCE_SOURCE });
  const failed = steps.some(({ kind, holds }) => kind !== 'guidance' && kind !== 'enough' && !holds);
  // One bar below Qn − 2·TNE is known however few were weighed.
  if (!enough.holds) return { steps, verdict: far.length > 0 ? 'fails' : 'not-enough' };
  return { steps, verdict: failed ? 'fails' : 'passes' };
};
