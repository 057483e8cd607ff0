import type { BatchState } from '../state';
import type { RemedyFacts, RemedyQuestion } from './facts';
import type { RemedyAnswer, RemedyCard, RemedyRefusal } from './types';

/** Never rejects: without an answer in time it is carrying on, where that is safe, and stopping, with `solved: false`. */
export type AnswerRemedy = (question: RemedyQuestion) => Promise<RemedyAnswer>;

/**
 * Whether a card may be taken, and does what it shows, by the batch alone: no solver. `decide` asks it again before anything is entered.
 * `null`: it may.
 */
export type CheckRemedy = (state: BatchState, card: RemedyCard, facts: RemedyFacts) => RemedyRefusal | null;
