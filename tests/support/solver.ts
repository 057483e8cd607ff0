import type { Solver } from '#lib/soap/remedy/solver';
import { answerOf } from '#lib/work/batch/remedy/answer';
import { remedyQuestion } from '#lib/work/batch/remedy/index';
import type { RemedyAnswer, RemedyCard, RemedyFacts, RemedyKind } from '#lib/work/batch/remedy/index';
import { loadSolver } from '#server/remedy/highs';
import type { BatchRig } from './batch';
import { factsWith } from './remedy-rig';

export const testSolver = (): Promise<Solver> => loadSolver({ seconds: 10 });

export const ask = (solve: Solver, rig: BatchRig, facts: RemedyFacts = factsWith()): RemedyAnswer =>
  answerOf(remedyQuestion(rig.now, facts), solve);

export const kindsOf = ({ cards }: RemedyAnswer): readonly RemedyKind[] => cards.map(({ kind }) => kind);

/** The card of a kind; an answer without it fails here. */
export const cardOf = (answer: RemedyAnswer, kind: RemedyKind): RemedyCard => {
  const found = answer.cards.find((card) => card.kind === kind);
  if (found === undefined) throw new Error(`no ${kind} among ${kindsOf(answer).join(', ')}`);
  return found;
};
