import { figuresOf } from '#lib/soap/poured/figures';
import type { BatchState } from '../state';
import { limitChecks } from './limits';
import { massesFrom } from './masses';
import { frozenOf, isUnworked, linesIn, potOf } from './pot';
import type { AsPoured, LivePour, LyeVerdict, PouredAnswer } from './types';

/** Of the computation: a batch freezes it with its results. */
export const POURED_METHOD = 'potwatch as poured 1';

/** A state never changes: what was worked out of it stands. */
const worked = new WeakMap<BatchState, PouredAnswer>();

/** The batch as it was poured so far, what is still to come at plan; with `live`, as it stands while that pour runs. */
export const asPoured = (state: BatchState, live: LivePour | null = null): PouredAnswer => {
  if (live !== null) return workOut(state, live);
  const known = worked.get(state);
  if (known !== undefined) return known;
  const answer = workOut(state, null);
  worked.set(state, answer);
  return answer;
};

const workOut = (state: BatchState, live: LivePour | null): PouredAnswer => {
  const basis = frozenOf(state);
  const read = potOf(state);
  if (read.kind !== 'pot') return read;
  if (isUnworked(basis)) return basis;
  const { pot } = read;
  const { toCome, ...masses } = massesFrom(state, basis, linesIn(state), live);
  const figures = figuresOf(pot, masses);
  return { kind: 'figures', method: POURED_METHOD, ...figures, pot, masses, toCome, limits: limitChecks(pot, figures) };
};

/** The least superfat that is believed, as a fraction: the worse of working value and mean, less two standard uncertainties. */
export const leastSuperfat = ({ working, value, u }: NonNullable<AsPoured['superfat']>): number => Math.min(working, value) - 2 * u;

/**
 * What superfat says of joining, by the worse of its working value and its mean: below zero never; two standard uncertainties below it
 * reaching under zero only with a person's word.
 */
export const lyeVerdict = ({ superfat }: Pick<AsPoured, 'superfat'>): LyeVerdict => {
  if (superfat === null) return 'heavy';
  if (Math.min(superfat.working, superfat.value) < 0) return 'heavy';
  return leastSuperfat(superfat) < 0 ? 'may-be-heavy' : 'fine';
};
