import { as } from '#lib/units/id';
import type { BatchId, IntentId, PersonId } from '#lib/units/id';
import type { BenchIntent, IntentAnswer, IntentWant } from '#lib/protocol/intent';
import type { BatchState, Plan, Refusal, RefusalCode } from '#lib/work/batch/index';
import type { PlanMould } from '#lib/work/batch/pouring/types';
import type { ConductorEvent } from '../conductor-types';
import { holdsLease } from '../lease';
import type { Behalf } from './complete';
import type { Core } from './core-types';
import type { Sender } from './types';
import { amended } from './amend';
import { chosenLot, unfitIn } from './lots';
import type { LotStores } from './lots';
import { meaningOf } from './wants';
import type { BarsSaid, Meaning } from './wants';

export interface IntentParts {
  readonly person: PersonId;
  readonly newBatchId: () => BatchId;
  /** The next mark of this workshop: "26-11". */
  readonly newMark: () => Promise<string>;
  /** A plan with the lots chosen; `null`: no such plan, line or lot; `unsound`: it cannot be computed, or must not be started. */
  readonly plan: (id: string, lots: Extract<IntentWant, { kind: 'start' }>['lots']) => Plan | 'unsound' | null;
  /** Moulds of the workshop for what this batch is to be; `null`: one is not known. Left out, none are. */
  readonly moulds?: (ids: readonly string[], batch: BatchState) => readonly PlanMould[] | null;
  /** Left out, no lot is known to be unfit. */
  readonly lots?: LotStores;
  /** A batch of this journal that is not at the bench, folded; `null`: none. */
  readonly load: (id: BatchId) => Promise<BatchState | null>;
}

/** An intent is meant now or not at all: a page may not post-date one to have it happen later. */
const LONGEST_VALID_MS = 15_000;
const REMEMBERED = 500;

/**
 * What screens want, one at a time: the next one is looked at when the one before it has its answer, so that of two who race for one
 * step the second sees what the first did. The same id gets the same answer, from memory or from the record.
 */
export const createIntents = (core: Core, parts: IntentParts): ((sender: Sender, intent: BenchIntent) => Promise<IntentAnswer>) => {
  const answers = new Map<string, Promise<IntentAnswer>>();
  let tail: Promise<unknown> = Promise.resolve();

  const remember = (id: string, answer: Promise<IntentAnswer>): void => {
    answers.set(id, answer);
    const [oldest] = answers.keys();
    if (answers.size > REMEMBERED && oldest !== undefined) answers.delete(oldest);
  };

  const handle = async (sender: Sender, intent: BenchIntent): Promise<IntentAnswer> => {
    const no = notHeard(core, sender, intent);
    if (no !== null) return (await storedAnswer(core, intent.id)) ?? { ok: false, refusal: no };
    if (!isSilence(intent.want)) core.ledBy(sender.person ?? parts.person);
    const meaning = meaningOf(intent.want, core.mailbox.batch());
    return act(core, parts, meaning, { ...onBehalf(parts, sender, intent), withdrawn: () => notTheirs(core, sender, intent) });
  };

  return (sender, intent) => {
    const known = answers.get(intent.id);
    if (known !== undefined) return known.then((answer) => (answer.ok ? { ...answer, repeated: true } : answer));
    const answer = tail.then(() => handle(sender, intent));
    tail = answer.catch(() => undefined);
    remember(intent.id, answer);
    return answer;
  };
};

const onBehalf = (parts: IntentParts, sender: Sender, intent: BenchIntent): Behalf => ({
  by: sender.person ?? parts.person,
  via: 'screen',
  role: sender.role,
  intent: as<IntentId>(intent.id),
  expectedVersion: intent.expectedVersion,
});

const refusal = (code: RefusalCode, params: Refusal['params'] = {}): Refusal => ({ code, params });

/** Why an intent is not even looked at: from another time, from someone who may not, or about something that has moved on. */
const notHeard = (core: Core, sender: Sender, intent: BenchIntent): Refusal | null => {
  const no = notTheirs(core, sender, intent);
  if (no !== null) return no;
  const { want } = intent;
  return isSilence(want) || OF_NO_BATCH.has(want.kind) ? null : movedOn(core, intent);
};

/** What is not about the batch at the bench. */
const OF_NO_BATCH: ReadonlySet<IntentWant['kind']> = new Set(['start', 'take-up', 'bars-begin', 'bars-press', 'bars-end']);

/** Everyone may silence, however old the picture before them. */
const isSilence = (want: IntentWant): boolean => want.kind === 'press' && want.key === 'silence';

/**
 * From another time, or from a page that does not lead the bench. Asked when the intent is heard and again when its turn in the mailbox
 * comes: a page that has lost the bench, or an intent that has run out, while the disk was late has nothing done any more.
 */
const notTheirs = (core: Core, { screen, role }: Sender, intent: BenchIntent): Refusal | null => {
  const { clock, boot } = core.parts;
  const now = clock.now();
  if (intent.seen.boot !== boot || now > intent.expires) return refusal('expired');
  if (intent.expires > now + LONGEST_VALID_MS) return refusal('malformed');
  if (isSilence(intent.want)) return null;
  if (role !== 'maker') return refusal('not-yours');
  if (!holdsLease(core.lease(), screen, now)) return refusal('not-in-control');
  return null;
};

const movedOn = (core: Core, { want, batch, expectedVersion, seen }: BenchIntent): Refusal | null => {
  const state = core.mailbox.batch();
  if (state === null || batch !== state.id) return refusal('moved-on');
  // A press means what the screen showed: another version, or another settled weight, and it would mean something else.
  if (want.kind !== 'press' && want.kind !== 'take-card') return null;
  if (expectedVersion !== state.version) return refusal('moved-on', { seen: expectedVersion ?? 0, version: state.version });
  return seen.episode === core.episode() ? null : refusal('moved-on', { episode: core.episode() });
};

const act = async (core: Core, parts: IntentParts, meaning: Meaning, behalf: Behalf): Promise<IntentAnswer> => {
  if (meaning.is === 'none') return { ok: false, refusal: meaning.refusal };
  if (meaning.is === 'bars') return bars(core, meaning.said, behalf);
  if (meaning.is === 'event') {
    const answers = await core.conduct(meaning.event, behalf);
    const no = answers.length > 0 ? null : unmet(core, meaning.event);
    return no === null ? heard(core, answers) : { ok: false, refusal: no };
  }
  if (meaning.is === 'moved') {
    core.moved(meaning.vessel);
    return heard(core, []);
  }
  if (meaning.is === 'start') return start(core, parts, meaning, { ...behalf, expectedVersion: null });
  if (meaning.is === 'take-up') return takeUp(core, parts, meaning, { ...behalf, expectedVersion: null });
  const batch = core.mailbox.batch();
  if (batch === null) return { ok: false, refusal: refusal('moved-on') };
  const found =
    meaning.is === 'want'
      ? meaning.want
      : meaning.is === 'lot' || meaning.is === 'scan'
        ? chosenLot(parts.lots, batch, meaning)
        : amended(core, parts, batch, meaning);
  return 'code' in found ? { ok: false, refusal: found } : core.send(found, batch.id, behalf);
};

/** Bars have their own lots and versions: what a press means is told by the step it was shown at. */
const bars = async (core: Core, said: BarsSaid, { by, intent }: Behalf): Promise<IntentAnswer> => {
  const { bars: round } = core;
  if (round === null || intent === null) return { ok: false, refusal: refusal('wrong-state', { status: 'no-bars' }) };
  if (said.kind === 'bars-press') return round.press(said.key, said.step, { by, intent });
  const no = said.kind === 'bars-begin' ? await round.begin({ ...said, lot: as(said.lot) }) : round.end();
  return no === null ? heard(core, []) : { ok: false, refusal: no };
};

/** A press that asked nothing of the record is done all the same: a card was highlighted, or nothing was to be done. */
const heard = (core: Core, answers: readonly IntentAnswer[]): IntentAnswer => {
  const [first] = answers;
  if (first === undefined)
    return { ok: true, seq: core.parts.journal.seq(), version: core.mailbox.batch()?.version ?? null, repeated: false };
  return first.ok ? (answers.findLast((answer) => answer.ok) ?? first) : first;
};

/** A button asked for a weight, and there was none to take: that is said, or a person believes it kept. */
const unmet = (core: Core, event: ConductorEvent): Refusal | null => {
  if (event.kind !== 'ask') return null;
  if (event.ask === 'weigh-back') return refusal('no-jug');
  // Of hydroxide its card came up instead.
  const asked = core.frame().cue.cards.some(({ code }) => code === 'part-pour');
  return event.ask === 'part-pour' && !asked ? refusal('not-settled') : null;
};

const start = async (
  core: Core,
  parts: IntentParts,
  { plan: id, lots, cleaned = [], held = false }: Extract<Meaning, { is: 'start' }>,
  behalf: Behalf,
): Promise<IntentAnswer> => {
  const plan = parts.plan(id, lots);
  if (plan === null) return { ok: false, refusal: refusal('no-such', { what: 'plan', id }) };
  if (plan === 'unsound') return { ok: false, refusal: refusal('plan-unsound', { id }) };
  const { realm, name } = core.parts;
  const mark = await parts.newMark();
  return core.send(
    { kind: 'start', body: { mark, plan, realm, bench: name, cleaned, unfit: unfitIn(parts.lots, plan), held } },
    parts.newBatchId(),
    behalf,
  );
};

const takeUp = async (
  core: Core,
  parts: IntentParts,
  { batch, note, moulds: ids }: Extract<Meaning, { is: 'take-up' }>,
  behalf: Behalf,
): Promise<IntentAnswer> => {
  const here = core.mailbox.batch();
  const state = here !== null && here.id === batch ? here : await parts.load(as<BatchId>(batch));
  if (state === null) return { ok: false, refusal: refusal('no-such', { what: 'batch', id: batch }) };
  const moulds = ids.length === 0 ? [] : (parts.moulds?.(ids, state) ?? null);
  if (moulds === null) return { ok: false, refusal: refusal('no-such', { what: 'mould', id: ids.join(', ') }) };
  return core.sendTo(state, { kind: 'take-up', body: { note, ...(moulds.length === 0 ? {} : { moulds }) } }, behalf);
};

/** A retry after a restart: what was done before it is answered as done. */
const storedAnswer = async (core: Core, id: string): Promise<IntentAnswer | null> => {
  const stored = (await core.parts.journal.answerTo(id)) as unknown as IntentAnswer | null;
  return stored !== null && stored.ok ? { ...stored, repeated: true } : stored;
};
