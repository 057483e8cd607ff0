import { isFat, isHydroxide } from './classes';
import type { SuperfatThen } from './entries';
import type { Plan } from './plan';
import { asPoured, leastSuperfat, lyeVerdict } from './poured/as-poured';
import type { BatchState, LineState } from './state';
import { verdictOf } from './verdict';

/** `superfatPerGram` × milligrams → fraction: thousandths of a point per gram. */
export const FRACTION = 1e-8;

/**
 * Superfat the plan was computed with, as a fraction: from its basis, and where a typed plan has none, from what its lines say a gram of
 * them does: superfat is 1 less what every line but the fats takes at its target. `null` when a fat or hydroxide line does not say.
 */
export const plannedSuperfat = ({ lines, basis }: Plan): number | null => {
  if (lines.some((line) => (isFat(line) || isHydroxide(line)) && line.superfatPerGram === null)) return null;
  const worked = basis?.worked.find(({ what, unit }) => what === 'superfat' && unit === '%');
  const stated = worked === undefined || worked.value.trim() === '' ? Number.NaN : Number(worked.value) / 100;
  if (Number.isFinite(stated)) return stated;
  return lines.reduce((sum, line) => (isFat(line) ? sum : sum + (line.superfatPerGram ?? 0) * line.target * FRACTION), 1);
};

/** What a line counts with: what was weighed; while it is still open, at least what is to come. */
export const countedOf = ({ plan, actual, status }: LineState): number => (status === 'closed' ? actual : Math.max(actual, plan.target));

/**
 * Superfat of the batch as weighed, as a fraction, by the sign that matters: exactly 0 where the hydroxide meets the demand of the fats,
 * and scaled by the planned demand elsewhere. A fat's effect on the demand is its `superfatPerGram` over (1 − planned superfat). Counted
 * from the plan as started, which is what its values were computed for; a line added since counts whole. `null`: not computed.
 */
export const superfatAsWeighed = (state: BatchState): number | null => {
  const planned = plannedSuperfat(state.plan);
  if (planned === null || planned >= 1) return null;
  let superfat = planned;
  for (const line of Object.values(state.lines)) {
    const { plan } = line;
    const first = state.plan.lines.find(({ id }) => id === plan.id);
    const per = (first ?? plan).superfatPerGram;
    if (per === null && (isFat(plan) || isHydroxide(plan))) return null;
    const inJug = state.leftInJug.reduce((sum, one) => (one.line === plan.id ? sum + one.mass : sum), 0);
    const effect = (per ?? 0) * (countedOf(line) - inJug - (first?.target ?? 0)) * FRACTION;
    superfat += isFat(plan) ? effect / (1 - planned) : effect;
  }
  return superfat;
};

/** Millionths. */
const MILLIONTHS = 1e6;
const inMillionths = (one: number): number => Math.round(one * MILLIONTHS) || 0;

/** Superfat as a person is asked to go on with it; `null` while it is fine, heavy anyway, or not worked out. */
export const superfatThen = (state: BatchState): SuperfatThen | null => {
  const poured = asPoured(state);
  if (poured.kind !== 'figures' || poured.superfat === null || lyeVerdict(poured) !== 'may-be-heavy') return null;
  const { working, lyeHeavy } = poured.superfat;
  return { working: inMillionths(working), least: inMillionths(leastSuperfat(poured.superfat)), chance: inMillionths(lyeHeavy) };
};

/**
 * Whether the batch as weighed holds more hydroxide than its fats take up: joining is held and no person can override it. By superfat as
 * poured below zero; of a plan that was typed or kept too little, by what its lines say a gram of them does; where that cannot be
 * computed either, unknown is not fine: any hydroxide above its greatest allowed weight (its tolerance
 * where none was computed), and any fat closed short of its tolerance, counts as lye-heavy. What the values of the fats may be off by
 * is not in it, nor what is still to be weighed: that stands at its target.
 */
export const isLyeHeavy = (state: BatchState): boolean => {
  const poured = asPoured(state);
  if (poured.kind === 'figures') return lyeVerdict(poured) === 'heavy';
  const superfat = superfatAsWeighed(state);
  if (superfat !== null) return superfat < 0;
  return Object.values(state.lines).some(({ plan, actual, status }) => {
    if (isHydroxide(plan)) return actual > (plan.upper ?? plan.target + plan.tolerance);
    return isFat(plan) && status === 'closed' && verdictOf(plan, actual) === 'short';
  });
};
