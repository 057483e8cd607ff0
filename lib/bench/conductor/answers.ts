import { mg, type Milligrams } from '#lib/units/mass';
import type { BatchState, LineState, OverChoice, Want } from '#lib/work/batch/index';
import { isRed, staysHeavy } from '#lib/work/batch/red';
import { signOf, wantAccept, weighedFrom } from './accept';
import { choice, closedChoice } from './choices';
import { canComeOut } from './come-out';
import type { PourMemory, ScaleMemory } from './memory';
import { isOver, standingAt, standsCrossedOut } from './pour';
import { waysOut, type Ways } from './remedy';
import type { Choice, Scene, Scenery } from './stage';

/** As many cards as a screen has room for. */
const MOST_WAYS = 5;

/**
 * A settled over-pour is never accepted by itself. Either answer first puts the weight into the record, so that what was poured shows
 * for ever, and then answers it. One that was crossed out and has not moved is in the record: it comes out again, or a person carries on.
 */
export const overScene = (stage: Scenery, line: LineState, scale: ScaleMemory, pour: PourMemory, over: number): Scene => {
  stage.memory.pour = { ...pour, offer: null };
  const total = mg(Math.round(line.actual + standingAt(line, pour, scale.track.level).net));
  const red = isRed(stage.batch, line, total);
  const deliberate = red || line.plan.material.class === 'hydroxide';
  const answer = (want: Answer): void => wantAccept(stage, { line, pour, scale, how: want.body.held ? 'held' : 'go-on' }, want);
  const cards = overCards(stage, line, total, { over: Math.round(over), red, deliberate }, answer);
  if (!standsCrossedOut(pour, scale)) {
    const key = `over ${line.plan.id} ${scale.window?.episode ?? 0} ${stage.batch.version}`;
    const choices = waysOut(stage, key, () => {
      const weighed = weighedFrom(stage.batch, pour.instrument, scale, mg(pour.zero), signOf(line));
      return weighed === null ? null : { line: line.plan.id, vessel: pour.vessel, weighed };
    });
    const shown = withCrossing(choices, cards);
    const { choices: ways = cards.choices } = shown;
    if (ways.length === 0) return { phase: 'over', doubts: pour.doubts, ...cards, choices: standing(pour) };
    stage.memory.pour = { ...pour, offer: null, ways: ways.map(({ card }) => card) };
    return { phase: 'over', doubts: pour.doubts, ...cards, ...shown };
  }
  return { phase: 'over', doubts: pour.doubts, choices: cards.choices.filter(({ card }) => card.code === 'carry-on') };
};

/** The cards of an over-pour whose reading moves or waits: they stand where they stood, and none can be taken before it is at rest. */
const standing = ({ ways }: PourMemory): readonly Choice[] =>
  ways.map((card) => ({ card: { ...card, enabled: false, why: card.why ?? 'settling' }, take: () => undefined }));

/** An over-pour that was settled and is over by its newest reading, which is not at rest; `null`: it is no such thing. */
export const restlessScene = (line: LineState, scale: ScaleMemory, pour: PourMemory): Scene | null => {
  const newest = scale.track.masses.at(-1);
  if (pour.ways.length === 0 || newest === undefined || !isOver(line, standingAt(line, pour, newest).left)) return null;
  return { phase: 'over', doubts: pour.doubts, choices: standing(pour) };
};

/** An over-pour that is in the record and waits for its answer. */
export const openOverScene = (stage: Scenery, over: NonNullable<BatchState['over']>): Scene => {
  const line = stage.batch.lines[over.line];
  if (line === undefined) return { phase: 'over' };
  const deliberate = over.red || line.plan.material.class === 'hydroxide';
  const answer = (want: Answer): void => void stage.wants.push(want);
  const cards = overCards(stage, line, line.actual, { over: over.by, red: over.red, deliberate }, answer);
  const choices = waysOut(stage, `open ${over.entry} ${stage.batch.version}`, () => null);
  return { phase: 'over', line, ...cards, ...withCrossing(choices, cards) };
};

/** Ways out that take the same material back out. */
const TAKING: ReadonlySet<string> = new Set(['lift-out', 'back-to-bottle', 'take-out']);

/**
 * Taking it back out and weighing it again stays possible, unless one of the ways takes the same out: no two cards for one act. Where there
 * is no room for its card it takes the place of one that cannot be taken, else of the least of the others. Stopping stands last.
 */
const withCrossing = (found: Ways | null, cards: ReturnType<typeof overCards>): Pick<Scene, 'choices' | 'back' | 'say'> => {
  const ways = found?.choices ?? [];
  if (found === null || ways.length === 0 || found.back !== undefined) return found ?? {};
  const crossing = cards.choices.filter(({ card }) => card.code === 'cross-out');
  const [stop] = ways.slice(-1);
  const others = ways.slice(0, -1);
  const closed = others.findLastIndex(({ card }) => !card.enabled);
  const taken = others.some(({ card }) => card.enabled && TAKING.has(card.code));
  const gives = ways.length < MOST_WAYS ? null : closed >= 0 ? closed : others.length - 1;
  if (stop === undefined || taken || crossing.length === 0) return { choices: ways };
  return { choices: [...others.filter((_, n) => n !== gives), ...crossing, stop] };
};

/** What a person stated to have gone wrong: the same cards, and nothing else before one is taken. `null`: nobody works them out. */
export const wrongScene = (stage: Scenery, wrong: NonNullable<BatchState['wrong']>): Scene | null => {
  const ways = waysOut(stage, `wrong ${wrong.entry} ${stage.batch.version}`, () => null);
  if (ways === null) return null;
  const say = ways.choices.length === 0 ? null : ({ key: `wrong ${wrong.entry}`, code: 'ways-out', params: {} } as const);
  return { phase: 'remedy', line: wrong.line === null ? null : (stage.batch.lines[wrong.line] ?? null), say, ...ways };
};

const answerOver = (line: LineState, choice: OverChoice, held: boolean) =>
  ({ kind: 'answer-over', body: { line: line.plan.id, choice, held } }) as const;

type Answer = Extract<Want, { kind: 'answer-over' | 'abandon' }>;

interface Over {
  readonly over: number;
  readonly red: boolean;
  readonly deliberate: boolean;
}

/**
 * What can be done without ways out: carrying on where nothing makes it lye-heavy, taking it out where it is not mixed with anything, and
 * stopping. `total`: of the line, with what is over.
 */
const overCards = (
  stage: Scenery,
  line: LineState,
  total: Milligrams,
  { over, red, deliberate }: Over,
  answer: (want: Answer) => void,
): Pick<Scene, 'say' | 'vessel'> & { readonly choices: readonly Choice[] } => {
  const params = { over, red: red ? 1 : 0 };
  const heavy = staysHeavy(stage.batch, line, total);
  return {
    choices: [
      heavy
        ? closedChoice('carry-on', params, 'lye-heavy')
        : choice('carry-on', params, deliberate, () => answer(answerOver(line, 'carry-on', deliberate))),
      ...(canComeOut(stage, line, total) ? [choice('cross-out', params, true, () => answer(answerOver(line, 'cross-out', true)))] : []),
      choice('stop', {}, true, () => answer({ kind: 'abandon', body: { reason: 'remedy', held: true } })),
    ],
    say: { key: `over ${line.plan.id} ${over}`, code: 'over', params },
  };
};

/** An accepted weight that shifted, or a vessel that came back unlike it left: a person says whether the weight stands, and hears whose. */
export const questionScene = (stage: Scenery, question: NonNullable<BatchState['question']>): Scene => {
  const params = { was: question.was, now: question.now };
  const line = Object.values(stage.batch.lines).find(({ contributions }) => contributions.some(({ entry }) => entry === question.entry));
  const vessel = line?.contributions.find(({ entry }) => entry === question.entry)?.vessel ?? null;
  const of = vessel === null ? '' : (stage.batch.vessels[vessel]?.plan.name ?? '');
  const answer = (answer: 'keep' | 'strike') => (): void =>
    void stage.wants.push({ kind: 'answer-question', body: { entry: question.entry, answer, held: true } });
  const choices: readonly Choice[] = [
    choice('keep-weight', params, true, answer('keep')),
    choice('strike-weight', params, true, answer('strike')),
  ];
  const say = { key: `question ${question.entry} ${question.now}`, code: 'question', params: { ...params, vessel: of } } as const;
  return { phase: 'question', line: line ?? null, vessel, choices, say };
};
