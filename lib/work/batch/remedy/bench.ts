import type { Pot } from '#lib/soap/poured/types';
import type { BatchState } from '../state';
import type { RemedyFacts } from './facts';
import { mixedIn, standsOf, type MixedVessel, type Stand } from './stand';

/** A batch as the programme sees it, once for all ways out. */
export interface Bench {
  readonly state: BatchState;
  readonly pot: Pot;
  readonly facts: RemedyFacts;
  readonly stands: readonly Stand[];
  readonly mixed: readonly MixedVessel[];
}

export const benchOf = (state: BatchState, pot: Pot, facts: RemedyFacts): Bench => {
  const stands = standsOf(state, facts);
  return { state, pot, facts, stands, mixed: mixedIn(state, stands) };
};
