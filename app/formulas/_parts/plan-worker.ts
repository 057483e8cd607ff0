import { planOf, withCatalogue } from '#lib/work/formula/index';
import type { Formula, PlanAnswer, PlanContext } from '#lib/work/formula/index';

/** One question to the worker; `n` comes back with the answer, so that an old answer is never shown for a newer formula. */
export interface PlanQuestion {
  readonly n: number;
  readonly formula: Formula;
  /** As GET /api/workshop gives it: of the materials the maker's own only. */
  readonly context: PlanContext;
}
export interface PlanReply {
  readonly n: number;
  readonly answer: PlanAnswer;
}

// Off the page's own thread, so that typing never waits for it.
addEventListener('message', ({ data: { n, formula, context } }: MessageEvent<PlanQuestion>) => {
  const answer = planOf(formula, withCatalogue(context));
  postMessage({ n, answer } satisfies PlanReply);
});
