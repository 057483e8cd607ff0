import { mg, type Milligrams } from '#lib/units/mass';
import type { Command, Refusal } from '../commands';
import type { Draft, Weighed } from '../entries';
import { hadIn, leftOver, partsMade, sourcesOf, targetsFor } from '../pouring/amounts';
import { emptyOf, mouldsIn, zeroOf } from '../pouring/places';
import { mouldContainer, partSource, standing, type Source } from '../pouring/types';
import type { BatchState } from '../state';
import { noSuch, notFromScale, notSettled, tooHeavy } from './checks';
import { allow, deny, draft, refusal, refuse, type Decider } from './decision';

/** A source holds what the record says, give or take what scales and a scraper do: beyond it somebody mistyped. Ours, no source. */
const SLACK = 1.03;
const LEAST_SLACK = mg(20_000);
const tooMuch = (mass: Milligrams, there: Milligrams): Refusal | null =>
  mass > Math.max(there * SLACK, there + LEAST_SLACK) ? refusal('bad-number', { mass, contents: there }) : null;

export const namePattern: Decider<'name-pattern'> = (state, { body: { mould, pattern } }) => {
  if (!mouldsIn(state).some(({ n }) => n === mould)) return refuse('no-such', { what: 'mould', id: String(mould) });
  const was = mouldsIn(state).find(({ n }) => n === mould)?.pattern ?? null;
  if (was === pattern) return refuse('already-done', { mould });
  // A pattern wants its batter: what is joined can still become plainer, never something else.
  if (state.joined !== null && pattern !== 'plain-pour') return refuse('after-joining', { mould });
  return allow(draft('pattern-named', { mould, pattern, was, why: state.joined === null ? 'named' : 'dropped' }));
};

export const setContainer: Decider<'set-container'> = (state, command) => {
  const { container, instrument, gross, episode } = command.body;
  const known =
    (state.plan.parts ?? []).some(({ id }) => partSource(id) === container) ||
    mouldsIn(state).some(({ n }) => mouldContainer(n) === container);
  if (!known) return deny(noSuch('container', container));
  const begun =
    standing(state.pour.pours).some(({ mould, by }) => mouldContainer(mould) === container && by === 'gain') ||
    partsMade(state).some(({ id }) => partSource(id) === container);
  if (begun) return refuse('already-done', { container });
  const no = notSettled(command, instrument, gross, episode) ?? tooHeavy(command, instrument, gross);
  return no === null ? allow(draft('container-set', { container, instrument, gross, episode })) : deny(no);
};

/** Its net is what came since the zero it names; without one a person typed it. */
const notWeighed = (command: Command, weighed: Weighed | undefined, mass: Milligrams, sign: 1 | -1): Refusal | null => {
  if (weighed === undefined) return null;
  const no = notFromScale(command, weighed);
  if (no !== null) return no;
  const { gross, zero, net } = weighed;
  return net === mass && net === sign * (gross - zero) ? null : refusal('bad-number', { mass, net });
};

/** By its gain a container is weighed against its own empty mass and what came into it before. */
const gains = ({ gross, zero }: Weighed): boolean => gross >= zero;
const wrongZero = (state: BatchState, container: Parameters<typeof zeroOf>[1], weighed: Weighed | undefined): Refusal | null => {
  if (weighed === undefined || !gains(weighed)) return null;
  const at = zeroOf(state, container);
  const right = at !== null && at.instrument === weighed.instrument && at.zero === weighed.zero;
  return right ? null : refusal('wrong-vessel', { container, zero: weighed.zero });
};

const told = (mass: Milligrams, weighed: Weighed | undefined) => ({
  mass,
  ...(weighed === undefined ? { source: 'by-hand' as const } : { weighed }),
});

export const part: Decider<'part'> = (state, command) => {
  const { part: id, mass, weighed } = command.body;
  const planned = (state.plan.parts ?? []).find((one) => one.id === id);
  if (planned === undefined) return refuse('no-such', { what: 'part', id });
  if (partsMade(state).some((one) => one.id === id)) return refuse('already-done', { part: id });
  if (mass <= 0) return refuse('bad-number', { mass });
  const no =
    tooMuch(mass, leftOver(state)) ??
    wrongZero(state, partSource(id), weighed) ??
    notWeighed(command, weighed, mass, weighed === undefined || gains(weighed) ? 1 : -1);
  if (no !== null) return deny(no);
  // For the grams really in it: what is its own is weighed by these, not by what was planned.
  const lines = targetsFor(state, planned, mass).map(({ line, target }) => ({
    ...line.plan,
    target,
    upper: line.plan.upper === null ? null : mg(Math.max(target, Math.round((line.plan.upper * target) / line.planned.target))),
  }));
  const moved: readonly Draft[] = lines.length === 0 ? [] : [draft('replanned', { lines, reason: 'part' })];
  return allow(draft('parted', { part: id, name: planned.name, ...told(mass, weighed) }), ...moved);
};

const unknownSource = (state: BatchState, from: readonly Source[]): Refusal | null => {
  const there = sourcesOf(state);
  const missing = from.find((one, at) => !there.includes(one) || from.indexOf(one) !== at);
  return from.length === 0 || missing !== undefined ? noSuch('source', missing ?? '') : null;
};

export const pourMould: Decider<'pour-mould'> = (state, command) => {
  const { mould, from, mass, weighed } = command.body;
  if (!mouldsIn(state).some(({ n }) => n === mould)) return refuse('no-such', { what: 'mould', id: String(mould) });
  if (mass <= 0) return refuse('bad-number', { mass });
  const byLoss = weighed !== undefined && !gains(weighed);
  // What one jug lost came from that jug.
  if (byLoss && from.length !== 1) return refuse('bad-number', { from: from.length });
  const no =
    unknownSource(state, from) ??
    tooMuch(mass, leftOver(state)) ??
    wrongZero(state, mouldContainer(mould), weighed) ??
    notWeighed(command, weighed, mass, byLoss ? -1 : 1);
  return no === null ? allow(draft('mould-poured', { mould, from, ...told(mass, weighed) })) : deny(no);
};

export const weighLeft: Decider<'weigh-left'> = (state, command) => {
  const { of, mass, weighed } = command.body;
  const no = unknownSource(state, [of]);
  if (no !== null) return deny(no);
  if (standing(state.pour.left).some((one) => one.of === of)) return refuse('already-done', { of });
  if (mass < 0) return refuse('bad-number', { mass });
  if (weighed !== undefined && weighed.zero !== emptyOf(state, of)) return refuse('wrong-vessel', { of, zero: weighed.zero });
  const wrong = tooMuch(mass, hadIn(state, of)) ?? notWeighed(command, weighed, mass, 1);
  return wrong === null ? allow(draft('left-over', { of, ...told(mass, weighed) })) : deny(wrong);
};

export const stateBatter: Decider<'state-batter'> = (_state, { body }) => allow(draft('batter-wrong', body));

export const askPhoto: Decider<'ask-photo'> = (state, { body: { of, mould } }) => {
  if (mould !== null && !mouldsIn(state).some(({ n }) => n === mould)) return refuse('no-such', { what: 'mould', id: String(mould) });
  const asked = state.pour.photos.some((one) => one.of === of && one.mould === mould);
  return asked ? refuse('already-done', { of }) : allow(draft('photo-asked', { of, mould }));
};

/** Crossing out an amount that was poured: it stays for ever, and counts no more. */
export const strikePour = (state: BatchState, entry: string): 'none' | 'standing' | 'struck' => {
  const { parts, pours, left } = state.pour;
  const found = [...parts, ...pours, ...left].find((one) => one.entry === entry);
  if (found === undefined) return 'none';
  return found.struck === null ? 'standing' : 'struck';
};
