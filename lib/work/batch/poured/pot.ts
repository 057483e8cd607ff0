import type { LineId } from '#lib/units/id';
import { own } from '../own';
import type { BatchState, LineState } from '../state';
import type { LineBasis, PouredBasis } from './basis';
import { potFrom, readBasis, type Wanted } from './read';
import type { PotRead, Unworked } from './types';

/** A batch's lines in their order, as far as the record has them. */
export const linesIn = (state: BatchState): readonly LineState[] =>
  state.order.flatMap((id) => {
    const line = own(state.lines, id);
    return line === undefined ? [] : [line];
  });

/** What a line is made of: as it was frozen; of one that came later, as another line of the same material was. */
const basisFor = (basis: PouredBasis, { plan }: LineState): LineBasis | null =>
  basis.lines.find(({ line, material }) => line === plan.id && material === plan.material.id) ??
  basis.lines.find(({ material }) => material === plan.material.id) ??
  null;

const no = (kind: Unworked['kind'], line: LineId | null = null): Unworked => ({ kind, line });

/** What the plan froze; or why there is nothing to go by. */
export const frozenOf = ({ plan }: BatchState): PouredBasis | Unworked => {
  if (plan.basis === undefined) return no('typed-plan');
  const basis = plan.basis.poured === undefined ? null : readBasis(plan.basis.poured);
  return basis ?? no('not-frozen');
};

export const isUnworked = (one: PouredBasis | Unworked): one is Unworked => 'kind' in one;

/** Pots by what they are made of: a weight more changes nothing of it. */
const known = new WeakMap<PouredBasis, { readonly key: string; readonly pot: PotRead }>();

/** The batch as chemistry sees it, its lines in the order of `state.order`; nothing of what was weighed is in it. */
export const potOf = (state: BatchState): PotRead => {
  const basis = frozenOf(state);
  if (isUnworked(basis)) return basis;
  const lines = linesIn(state);
  const key = JSON.stringify(lines.map(({ plan }) => [plan.id, plan.material.id, plan.lot?.id ?? null]));
  const before = known.get(basis);
  if (before?.key === key) return before.pot;
  const pot = made(basis, lines);
  known.set(basis, { key, pot });
  return pot;
};

/** Whether a line by itself is known; of another lot than was certified it may not be. */
const sound = (basis: PouredBasis, one: Wanted): boolean => {
  try {
    return potFrom(basis, [one]).lines.length === 1;
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return false;
  }
};

const made = (basis: PouredBasis, lines: readonly LineState[]): PotRead => {
  const wanted: Wanted[] = [];
  for (const line of lines) {
    const frozen = basisFor(basis, line);
    if (frozen === null) return no('unknown-line', line.plan.id);
    const { id, material, lot } = line.plan;
    wanted.push({ id, name: material.name, lot: lot?.id ?? null, basis: frozen });
  }
  try {
    return { kind: 'pot', pot: potFrom(basis, wanted) };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return no('unknown-line', wanted.find((one) => !sound(basis, one))?.id ?? null);
  }
};
