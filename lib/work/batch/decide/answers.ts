import type { EntryId, LineId, VesselId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import { mg, subMass } from '#lib/units/mass';
import { alike, RECOGNISED_WITHIN } from '../alike';
import type { CommandOf, Observation } from '../commands';
import type { Draft, StrikeReason } from '../entries';
import { own } from '../own';
import { staysHeavy } from '../red';
import { isApart } from '../remedy/apart';
import type { BatchState, Contribution, LineState, Portion } from '../state';
import { verdictOf } from '../verdict';
import { isFat, isHydroxide } from '../classes';
import { blank, contributionsIn, lineOf } from './checks';
import { allow, draft, refuse, type Decider, type Decision } from './decision';
import { closing, stillOn } from './pour';
import type { OnPan } from './pour';
import { strikePour } from './pouring';
import { outOf } from './standing';

type Struck = CommandOf<'strike'>['body'];

interface Found {
  readonly line: LineState;
  readonly one: Contribution;
}

/** Every line's share of one entry: a mixture weighed back touches several. */
const found = (state: BatchState, entry: EntryId): readonly Found[] =>
  Object.values(state.lines).flatMap((line) => line.contributions.filter((one) => one.entry === entry).map((one) => ({ line, one })));

/** Reasons after which the right material still goes into the same vessel, counted from the same zero. */
const SAME_POUR: ReadonlySet<StrikeReason> = new Set(['over-poured', 'undone', 'something-on-the-pan', 'mistyped']);

/** The zero a crossed-out pour is weighed again from: its own, if nothing was weighed in its vessel since. */
const oldZero = (state: BatchState, { line, one }: Found): { vessel: VesselId; line: LineId; zero: Milligrams } | null => {
  const newest = contributionsIn(state, one.vessel).at(-1)?.one.entry === one.entry;
  return one.kind === 'pour' && one.weighed !== null && newest ? { vessel: one.vessel, line: line.plan.id, zero: one.weighed.zero } : null;
};

const alarmEnd = (state: BatchState, code: Extract<Draft, { kind: 'alarm-ended' }>['body']['code']): readonly Draft[] =>
  own(state.alarms, code) === undefined ? [] : [draft('alarm-ended', { code })];

export const endOver = (state: BatchState): readonly Draft[] => [...alarmEnd(state, 'over-pour'), ...alarmEnd(state, 'over-pour-red')];
const endQuestion = (state: BatchState): readonly Draft[] => [...alarmEnd(state, 'vessel-changed'), ...alarmEnd(state, 'mass-on-return')];

/** A line that had lost something and has it again needs no pour to be complete. */
const whole = (line: LineState, one: Contribution): readonly Draft[] => {
  const actual = subMass(line.actual, one.net);
  const back = one.net < 0 && line.status !== 'closed' && verdictOf(line.plan, actual) === 'within';
  return back ? [draft('line-closed', { line: line.plan.id, outcome: 'within', actual })] : [];
};

/** A vessel that was lifted, or another in its place, is not counted on: it is recognised and set anew. */
export const standsSeen = (on: OnPan | null, settled: Observation['settled']): OnPan | null =>
  on !== null && settled?.instrument === on.instrument && alike(settled.gross, on.gross, RECOGNISED_WITHIN) ? on : null;

/** Crossing out one entry: it stays for ever, its line is open again. */
const crossOut = (
  state: BatchState,
  { settled }: Observation,
  entry: EntryId,
  reason: StrikeReason,
  note: string,
  again: boolean,
): readonly Draft[] => {
  const all = found(state, entry);
  const [first] = all;
  const recount = again && first !== undefined ? oldZero(state, first) : null;
  const on = standsSeen(stillOn(state, first?.one), settled);
  const poured = all.filter(({ one }) => one.kind === 'pour' || one.kind === 'typed');
  return [
    draft('struck', {
      entry,
      reason,
      note,
      out: all.flatMap(({ line, one }) => outOf(state, line.plan.id, one)),
      ...(recount === null ? {} : { recount }),
    }),
    ...poured.filter(({ line }) => line.status === 'closed').map(({ line }) => draft('line-reopened', { line: line.plan.id })),
    ...all.flatMap(({ line, one }) => whole(line, one)),
    ...(state.over?.entry === entry ? endOver(state) : []),
    ...(state.question?.entry === entry ? endQuestion(state) : []),
    ...(recount !== null && on !== null ? [draft('vessel-set', { ...on, line: recount.line, empty: null, zero: recount.zero })] : []),
  ];
};

export const question: Decider<'question'> = (state, { body }) => {
  if (state.question !== null) return refuse('already-done', { entry: state.question.entry });
  const [first] = found(state, body.entry);
  if (first === undefined || first.one.struck !== null || first.one.weighed === null)
    return refuse('no-such', { what: 'entry', id: body.entry });
  const { one, line } = first;
  const was =
    (body.why === 'unlike-on-return' ? own(state.vessels, one.vessel)?.standing?.gross : undefined) ?? one.weighed?.gross ?? mg(0);
  const code = body.why === 'unlike-on-return' ? 'mass-on-return' : 'vessel-changed';
  return allow(
    draft('weight-questioned', { entry: body.entry, why: body.why, was, now: body.now }),
    draft('alarm-raised', { code, line: line.plan.id, instrument: one.weighed?.instrument ?? null, detail: String(body.now - was) }),
  );
};

/** The vessel that stands there goes on from what it weighs now. */
const zeroNow = (state: BatchState, { one }: Found, now: number): readonly Draft[] => {
  const on = stillOn(state, one);
  const pan = on === null ? undefined : own(state.pans, on.instrument);
  if (on === null || pan === undefined || pan.line !== state.open) return [];
  return [draft('vessel-set', { ...on, line: pan.line, gross: mg(now), empty: null })];
};

export const answerQuestion: Decider<'answer-question'> = (state, { body, observation }) => {
  const asked = state.question;
  if (asked === null || asked.entry !== body.entry) return refuse('no-such', { what: 'question', id: body.entry });
  const [first] = found(state, body.entry);
  if (first === undefined) return refuse('no-such', { what: 'entry', id: body.entry });
  const answered = draft('question-answered', { entry: body.entry, answer: body.answer });
  if (body.answer === 'strike') {
    const reason = asked.why === 'unlike-on-return' ? 'other' : 'something-on-the-pan';
    return allow(answered, ...crossOut(state, observation, body.entry, reason, asked.why, true));
  }
  if (isHydroxide(first.line.plan) && !body.held) return refuse('needs-hold', { line: first.line.plan.id });
  return allow(answered, ...endQuestion(state), ...zeroNow(state, first, asked.now));
};

const carryOn = (
  state: BatchState,
  line: LineState,
  over: NonNullable<BatchState['over']>,
  { body, observation }: CommandOf<'answer-over'>,
) => {
  if ((over.red || isHydroxide(line.plan)) && !body.held) return refuse('needs-hold', { line: body.line, by: over.by });
  if (staysHeavy(state, line, line.actual)) return refuse('lye-heavy', { line: body.line });
  const taken = line.contributions.find((one) => one.entry === over.entry);
  const on = standsSeen(stillOn(state, taken), observation.settled);
  return allow(
    draft('over-answered', { line: body.line, choice: 'carry-on', over: over.by, red: over.red }),
    ...endOver(state),
    // A replan may have come before the answer.
    ...closing(state, line, verdictOf(line.plan, line.actual) === 'within' ? 'within' : 'over', line.actual, on),
  );
};

export const answerOver: Decider<'answer-over'> = (state, command) => {
  const { body, observation } = command;
  const { over } = state;
  const line = lineOf(state, body.line);
  if (over === null || line === undefined || over.line !== body.line) return refuse('no-such', { what: 'over-pour', id: body.line });
  if (state.question !== null) return refuse('needs-answer', { to: 'question', entry: state.question.entry });
  if (body.choice === 'carry-on') return carryOn(state, line, over, command);
  if (!isApart(state, line, observation.oils)) return refuse('mixed', { line: body.line });
  return allow(
    draft('over-answered', { line: body.line, choice: 'cross-out', over: over.by, red: over.red }),
    ...endOver(state),
    ...crossOut({ ...state, over: null }, observation, over.entry, 'over-poured', '', true),
  );
};

/** After these what was poured is no longer where the record has it: out of a mixture that is not so. */
const TAKEN_OUT: ReadonlySet<StrikeReason> = new Set(['over-poured', 'wrong-material']);

/** It is not weighed on from where it began: others came after it, it is over and waits for its answer, or all is joined. */
const isPast = (state: BatchState, one: Contribution): boolean =>
  state.joined !== null || state.over?.entry === one.entry || contributionsIn(state, one.vessel).at(-1)?.one.entry !== one.entry;

/**
 * A line of a mixture whose weight would be crossed out as if it had come back out; undoing one that is past is just that. A slip of the
 * record (mistyped, something on the pan) is mended whatever lies where.
 */
const mixedWith = (state: BatchState, all: readonly Found[], { reason }: Struck, oils: Observation['oils']): LineState | undefined =>
  all.find(({ line, one }) => {
    const out = TAKEN_OUT.has(reason) || (reason === 'undone' && isPast(state, one));
    return out && one.net > 0 && !isApart(state, line, oils);
  })?.line;

/** Taken or lost from what is joined: fats and hydroxide in one share each, so that putting it back changes no proportion. */
const isBatter = (all: readonly Found[]): boolean => all.every(({ one }) => one.net < 0) && all.some(({ line }) => isFat(line.plan));

/** Batter of one pot is alike: what was taken goes back as it was, whether it was poured back or never left. */
const strikePortion = ({ entry, vessel, took = [] }: Portion, { reason, note, held }: Struck): Decision => {
  if (!held) return refuse('needs-hold', { entry });
  if (reason === 'other' && blank(note)) return refuse('no-such', { what: 'note', id: entry });
  const out = took.map(({ line, mass }) => ({ vessel, line, mass: subMass(mg(0), mass) }));
  return allow(draft('struck', { entry, reason, note, out }));
};

export const strike: Decider<'strike'> = (state, { body, observation }) => {
  const all = found(state, body.entry);
  const [first] = all;
  const pour = first === undefined ? strikePour(state, body.entry) : 'none';
  if (pour === 'struck') return refuse('already-done', { entry: body.entry });
  if (pour === 'standing') {
    if (!body.held) return refuse('needs-hold', { entry: body.entry });
    return allow(draft('struck', { entry: body.entry, reason: body.reason, note: body.note }));
  }
  const portion = state.parts.find(({ entry }) => entry === body.entry);
  if (portion !== undefined) return strikePortion(portion, body);
  if (first === undefined) return refuse('no-such', { what: 'entry', id: body.entry });
  if (first.one.struck !== null) return refuse('already-done', { entry: body.entry });
  // What one batch set aside and another one holds is crossed out in neither.
  if (first.one.toBatch === true || first.one.kind === 'brought') return refuse('wrong-state', { status: 'set-aside' });
  if (state.joined !== null && all.some(({ line }) => isHydroxide(line.plan)) && !isBatter(all))
    return refuse('after-joining', { line: first.line.plan.id });
  // Until the next pour it is an undo; afterwards it amends the record, which is a deliberate act.
  const later = Object.values(state.lines).some((line) => line.contributions.some((one) => one.version > first.one.version));
  if ((later || state.joined !== null) && !body.held) return refuse('needs-hold', { entry: body.entry });
  const mixed = mixedWith(state, all, body, observation.oils);
  if (mixed !== undefined) return refuse('mixed', { line: mixed.plan.id });
  if (body.reason === 'other' && blank(body.note)) return refuse('no-such', { what: 'note', id: body.entry });
  return allow(...crossOut(state, observation, body.entry, body.reason, body.note, SAME_POUR.has(body.reason)));
};
