import { OF_INTENTS } from './intents';
import type { Invariant } from './look';
import { OF_THE_RECORD } from './record';
import { OF_WEIGHTS } from './weights';

export type { Invariant, Look } from './look';
export { ACCEPTED_ONCE, ACCEPTED_TRUE } from './weights';

/** What must hold after each step, whatever happened before it. */
export const INVARIANTS: readonly Invariant[] = [...OF_WEIGHTS, ...OF_THE_RECORD, ...OF_INTENTS];
