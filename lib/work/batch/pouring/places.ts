import type { InstrumentId } from '#lib/units/id';
import { mg, type Milligrams } from '#lib/units/mass';
import { own } from '../own';
import type { BatchState, VesselState } from '../state';
import { massOf } from './amounts';
import { mouldContainer, standing, type Container, type PlanMould, type Source } from './types';

/** A mould of the plan, with its pattern as a person last named it. */
export const mouldsIn = ({ plan, pour }: BatchState): readonly PlanMould[] =>
  (plan.moulds ?? []).map((mould) => ({ ...mould, pattern: pour.patterns[mould.n] ?? mould.pattern }));

/** The vessel the batter is in. */
export const potOf = (state: BatchState): VesselState | null =>
  Object.values(state.vessels).find((vessel) => vessel.state === 'joined' || vessel.state === 'portioned') ?? null;

/** From where a container on the pan is counted now: its empty mass and what was weighed into it before. */
export const zeroOf = (
  { pour }: BatchState,
  container: Container,
): { readonly instrument: InstrumentId; readonly zero: Milligrams } | null => {
  const set = own(pour.set, container);
  if (set === undefined) return null;
  const before = standing(pour.pours).filter(({ mould, by }) => by === 'gain' && mouldContainer(mould) === container);
  return { instrument: set.instrument, zero: mg(set.gross + massOf(before)) };
};

/** What a source weighs empty; `null`: nobody knows. */
export const emptyOf = (state: BatchState, source: Source): Milligrams | null =>
  source === 'pot' ? (potOf(state)?.empty ?? null) : (own(state.pour.set, source as Container)?.gross ?? null);
