import type { BarsAnswer } from '#lib/protocol/bars';
import type { HttpProblem } from '#lib/protocol/http';
import type { Answer } from '../../_ui/api';
import { messages } from '../messages';

/** What is to be said of an answer; `null`: it was done. */
export const problemOf = (answer: Answer<BarsAnswer>): HttpProblem | null => {
  if (!answer.ok) return answer.problem;
  return answer.value.ok ? null : messages.refused(answer.value.refusal.code);
};
