import { mg } from '#lib/units/mass';
import type { BatchState, LineState, OverChoice } from '#lib/work/batch/index';
import { isRed } from '#lib/work/batch/verdict';
import { wantAccept } from './accept';
import { choice } from './choices';
import type { PourMemory, ScaleMemory } from './memory';
import { standingAt, standsCrossedOut } from './pour';
import type { Choice, Scene, Scenery } from './stage';

/**
 * A settled over-pour is never accepted by itself. Either answer first puts the weight into the record, so that what was poured shows
 * for ever, and then answers it. One that was crossed out and has not moved is in the record: it comes out again, or a person carries on.
 */
export const overScene = (stage: Scenery, line: LineState, scale: ScaleMemory, pour: PourMemory, over: number): Scene => {
  stage.memory.pour = { ...pour, offer: null };
  const red = isRed(line.plan, mg(Math.round(line.actual + standingAt(line, pour, scale.track.level).net)));
  const deliberate = red || line.plan.material.class === 'hydroxide';
  const answer = (choice: OverChoice, held: boolean): void =>
    wantAccept(stage, { line, pour, scale, how: held ? 'held' : 'go-on' }, answerOver(line, choice, held));
  const cards = overCards(line, Math.round(over), red, deliberate, answer);
  if (!standsCrossedOut(pour, scale)) return { phase: 'over', doubts: pour.doubts, ...cards };
  return { phase: 'over', doubts: pour.doubts, choices: cards.choices?.filter(({ card }) => card.code === 'carry-on') ?? [] };
};

/** An over-pour that is in the record and waits for its answer. */
export const openOverScene = (stage: Scenery, over: NonNullable<BatchState['over']>): Scene => {
  const line = stage.batch.lines[over.line];
  if (line === undefined) return { phase: 'over' };
  const deliberate = over.red || line.plan.material.class === 'hydroxide';
  const answer = (choice: OverChoice, held: boolean): void => void stage.wants.push(answerOver(line, choice, held));
  return { phase: 'over', line, ...overCards(line, over.by, over.red, deliberate, answer) };
};

const answerOver = (line: LineState, choice: OverChoice, held: boolean) =>
  ({ kind: 'answer-over', body: { line: line.plan.id, choice, held } }) as const;

const overCards = (
  line: LineState,
  over: number,
  red: boolean,
  deliberate: boolean,
  answer: (choice: OverChoice, held: boolean) => void,
): Pick<Scene, 'choices' | 'say' | 'vessel'> => {
  const params = { over, red: red ? 1 : 0 };
  return {
    choices: [
      choice('carry-on', params, deliberate, () => answer('carry-on', deliberate)),
      choice('cross-out', params, true, () => answer('cross-out', true)),
    ],
    say: { key: `over ${line.plan.id} ${over}`, code: 'over', params },
  };
};

/** An accepted weight that shifted, or a vessel that came back unlike it left: a person says whether the weight stands. */
export const questionScene = (stage: Scenery, question: NonNullable<BatchState['question']>): Scene => {
  const params = { was: question.was, now: question.now };
  const answer = (answer: 'keep' | 'strike') => (): void =>
    void stage.wants.push({ kind: 'answer-question', body: { entry: question.entry, answer, held: true } });
  const choices: readonly Choice[] = [
    choice('keep-weight', params, true, answer('keep')),
    choice('strike-weight', params, true, answer('strike')),
  ];
  return { phase: 'question', choices, say: { key: `question ${question.entry} ${question.now}`, code: 'question', params } };
};
