import { SolverFailed, type Solver } from '#lib/soap/remedy/solver';
import { as } from '#lib/units/id';
import type { BatchId, BootId, EntryId, PersonId } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import { evolve } from '#lib/work/batch/index';
import type { BatchState, Entry, EntryHead, Plan } from '#lib/work/batch/index';
import { answerOf } from '#lib/work/batch/remedy/answer';
import { NO_FACTS, remedyQuestion, type RemedyFacts } from '#lib/work/batch/remedy/index';
import { planOf } from '#lib/work/formula/index';
import { ALDER_AND_OAT_FORMULA } from '#lib/work/formula/sample/formulas';
import { SAMPLE_WORKSHOP } from '#lib/work/formula/sample/workshop';

const ROUNDS = 4;

const FACTS: RemedyFacts = {
  ...NO_FACTS,
  scales: [{ id: as('warm-up'), role: 'main', division: grams(0.1), capacity: grams(6_000) }],
};

const head = (version: number): EntryHead => ({
  id: as<EntryId>(`warm-${version}`),
  batch: as<BatchId>('warm-up'),
  version,
  realm: 'test',
  v: 1,
  by: as<PersonId>('warm-up'),
  via: 'server',
  intent: null,
  boot: as<BootId>('warm-up'),
  mono: 0,
  wall: 0,
  offsetMin: 0,
});

/** A batch of the invented workshop, its first line poured over. */
const overPoured = (plan: Plan, over: number): BatchState => {
  const [line] = plan.lines;
  const started: Entry = { ...head(1), kind: 'batch-started', body: { mark: '', plan, bench: '', uncheckedScales: [] } };
  const first = evolve(null, started);
  if (line === undefined) return first;
  const net = mg(line.target + over);
  const typed = { net, text: '', unit: 'mg' } as const;
  return evolve(first, { ...head(2), kind: 'weight-typed', body: { line: line.id, vessel: line.vessel, typed, part: false, lot: null } });
};

/** A slow machine may not come to an end in the time of one programme while everything is cold: that is what this is for. */
const patiently = (ask: () => void): void => {
  try {
    ask();
  } catch (error) {
    if (!(error instanceof SolverFailed)) throw error;
  }
};

/** The first questions take ten times as long as later ones; nobody is to wait for that. Their answers are thrown away. */
export const warmUp = (solve: Solver): void => {
  const answer = planOf(ALDER_AND_OAT_FORMULA, SAMPLE_WORKSHOP);
  if (answer.kind !== 'plan') return;
  for (let round = 0; round < ROUNDS; round += 1)
    for (const over of [12_300, 60_000])
      patiently(() => answerOf(remedyQuestion(overPoured(answer.plan, over + round * 700), FACTS), solve));
};
