import type { RemedyAnswer, RemedyQuestion } from '#lib/work/batch/remedy/index';

/** To the worker: one question at a time. */
export interface Asked {
  readonly id: number;
  readonly question: RemedyQuestion;
}

/** From the worker: `ready` once the solver is loaded and warm, then an answer for each question. */
export type Told =
  | { readonly kind: 'ready' }
  | { readonly kind: 'answer'; readonly id: number; readonly answer: RemedyAnswer }
  /** It could not be worked out; `why` is for the log. */
  | { readonly kind: 'failed'; readonly id: number; readonly why: string };
