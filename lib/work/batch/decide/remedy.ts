import type { LineId } from '#lib/units/id';
import { mg, type Milligrams } from '#lib/units/mass';
import type { CommandOf, Refusal } from '../commands';
import type { Draft, Share, Weighed } from '../entries';
import { isLyeHeavy } from '../lye-heavy';
import { own } from '../own';
import { staysHeavy } from '../red';
import { asideMark } from '../remedy/aside-mark';
import { afterRemedy, remedyDrafts, withDrafts } from '../remedy/after';
import { checkRemedy } from '../remedy/check';
import { shownOf } from '../remedy/record';
import { setAside } from '../remedy/set-aside';
import type { RemedyAct } from '../remedy/types';
import { apportion, asShares, totalOf } from '../shares';
import type { BatchState, VesselState } from '../state';
import { verdictOf } from '../verdict';
import { endOver, standsSeen } from './answers';
import { isHydroxide } from '../classes';
import { notFromScale, uncheckedScales } from './checks';
import { allow, deny, draft, refusal, refuse, type Decider } from './decision';
import { closing, stillOn } from './pour';

/** Codes that the rules of the batch have too; whatever else stands against a card, it would not do what it shows. */
const refused = (state: BatchState, { body }: CommandOf<'choose-remedy'>): Refusal | null => {
  const { card, version, facts, held } = body;
  if (version !== state.version) return refusal('moved-on', { seen: version, version: state.version });
  if (!card.enabled) return refusal('not-as-shown', { card: card.kind });
  if (card.held && !held) return refusal('needs-hold', { card: card.kind });
  const no = checkRemedy(state, card, facts);
  if (no === null) return null;
  if (no.code === 'moved-on' || no.code === 'lye-heavy' || no.code === 'no-stock') return refusal(no.code, no.params);
  return refusal('not-as-shown', { why: no.code, ...no.params });
};

/** The over-poured line is complete as it is, unless the way out has more of it poured or some of it taken out. */
const overDone = (state: BatchState, { body, observation }: CommandOf<'choose-remedy'>): readonly Draft[] => {
  const { over } = state;
  if (over === null || body.card.acts.length > 0) return [];
  const after = afterRemedy(state, { lines: body.card.lines, acts: [] });
  const line = own(after.lines, over.line);
  if (line === undefined || line.status === 'closed' || verdictOf(line.plan, line.actual) === 'short') return [];
  const taken = line.contributions.find((one) => one.entry === over.entry);
  const on = standsSeen(stillOn(state, taken), observation.settled);
  return closing({ ...after, over: null }, line, verdictOf(line.plan, line.actual), line.actual, on);
};

/** Who chose what, of what, and all that follows: targets move, closed lines are opened, and what leaves by hand waits to be led. */
export const chooseRemedy: Decider<'choose-remedy'> = (state, command) => {
  const no = refused(state, command);
  if (no !== null) return deny(no);
  const { card, others, solved } = command.body;
  const { over } = state;
  const chosen = draft('remedy-chosen', {
    over: over === null ? null : { line: over.line, by: over.by, red: over.red },
    card: shownOf(card),
    others: others.map(shownOf),
    solved,
    acts: card.acts,
  });
  const carried = card.kind === 'carry-on' && over !== null;
  const answer = carried ? [draft('over-answered', { line: over.line, choice: 'carry-on', over: over.by, red: over.red })] : [];
  const ended = over === null ? [] : [...answer, ...endOver(state)];
  if (card.kind === 'stop') return allow(chosen, ...ended, draft('abandoned', { reason: 'remedy' }));
  return allow(chosen, ...ended, ...remedyDrafts(state, { lines: card.lines, acts: [] }), ...overDone(state, command));
};

/** What an act may take: of one line what the vessel holds of it, else all of the mixture. */
const within = (act: RemedyAct, vessel: VesselState): readonly Share[] => {
  const held = asShares(vessel.holds);
  return 'shares' in act ? held : held.filter(({ line }) => line === act.line);
};

const tooMuch = (mass: Milligrams, held: readonly Share[]): boolean => mass <= 0 || mass > totalOf(held);

/** What stood there was taken from: its weights are no longer to be confirmed by a lift, and the next line goes on from what it weighs now. */
const zeroAfter = (after: BatchState, act: RemedyAct, weighed: Weighed | null): readonly Draft[] => {
  if (weighed === null || own(after.pans, weighed.instrument)?.vessel !== act.vessel) return [];
  const { instrument, gross, episode } = weighed;
  const lifted = draft('vessel-lifted', { vessel: act.vessel, gross });
  const open = after.open === null || after.toDo.length > 0 ? undefined : own(after.lines, after.open);
  if (open?.plan.vessel !== act.vessel || open.plan.mode !== 'gain' || isHydroxide(open.plan)) return [lifted];
  return [lifted, draft('vessel-set', { vessel: act.vessel, line: open.plan.id, instrument, gross, empty: null, episode })];
};

/**
 * Lines that were over and are enough as they are now. What is lye-heavy still, or may be and was left in, is over as before: ways out are
 * asked for again. `after`: with what left.
 */
const whole = (after: BatchState, lines: readonly LineId[], left: boolean): readonly Draft[] =>
  lines.flatMap((id): readonly Draft[] => {
    const line = own(after.lines, id);
    if (line === undefined || line.status === 'closed') return [];
    const { plan, actual } = line;
    const verdict = verdictOf(plan, actual);
    if (verdict === 'short') return [];
    if (verdict !== 'over' || !(left ? staysHeavy(after, line, actual) : isLyeHeavy(after)))
      return [draft('line-closed', { line: id, outcome: verdict, actual })];
    const by = mg(actual - plan.target);
    const over = { by, again: true };
    return [draft('alarm-raised', { code: 'over-pour-red', line: id, instrument: null, detail: String(by), over })];
  });

export const doRemedyAct: Decider<'do-remedy-act'> = (state, command) => {
  const [act] = state.toDo;
  const { weighed, held, leave = false, begins } = command.body;
  if (act === undefined) return refuse('already-done');
  if (!held) return refuse('needs-hold', { act: act.kind });
  const vessel = own(state.vessels, act.vessel);
  if (vessel === undefined) return refuse('no-such', { what: 'vessel', id: act.vessel });
  const done = (mass: Milligrams): Draft => draft('remedy-act-done', { kind: act.kind, vessel: act.vessel, asked: act.mass, done: mass });
  const complete = (drafts: readonly Draft[], left: boolean): readonly Draft[] => {
    const lines = within(act, vessel).map(({ line }) => line);
    return state.toDo.length === 1 ? [...drafts, ...whole(withDrafts(state, drafts), lines, left)] : drafts;
  };
  if (leave) return allow(...complete([done(mg(0))], true));
  if (act.kind === 'finish-pour') return allow(done(act.mass));
  const no = weighed === null ? null : notFromScale(command, weighed);
  if (no !== null) return deny(no);
  if (weighed !== null && weighed.net !== weighed.zero - weighed.gross) return refuse('bad-number', { net: weighed.net });
  const mass = weighed?.net ?? act.mass;
  const from = within(act, vessel);
  if (tooMuch(mass, from)) return refuse('bad-number', { mass, contents: totalOf(from) });
  const shares = apportion(mass, from);
  const ppm = Math.round((1e6 * mass) / Math.max(vessel.contents, 1));
  const to = act.kind === 'leave' ? 'bottle' : act.to;
  const source = weighed === null ? ({ source: 'by-hand' } as const) : { weighed };
  const left = { vessel: act.vessel, mass, shares, weighed };
  const aside = act.kind === 'split-off' && begins !== undefined ? setAside(state, left, begins, uncheckedScales(command)) : null;
  const begun = aside === null ? {} : { begins: { batch: aside.batch, mark: asideMark(state) } };
  const drafts = complete([draft('withdrawn', { vessel: act.vessel, ppm, mass, to, shares, ...source, ...begun }), done(mass)], false);
  const all = [...drafts, ...zeroAfter(withDrafts(state, drafts), act, weighed)];
  return aside === null ? allow(...all) : { ok: true, drafts: all, begins: aside };
};
