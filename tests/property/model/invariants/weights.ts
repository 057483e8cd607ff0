import type { BatchState, Entry, EntryOf, Weighed } from '#lib/work/batch/index';
import { notRead, notSettled, roleOf } from '../evidence';
import { notTrue } from '../truth';
import { same } from '../record';
import { accepts } from './look';
import type { Invariant } from './look';

/** Broken as soon as the rules forget which settled weights were used up. */
export const ACCEPTED_ONCE = 'one settled weight is accepted once: no two accepts of one boot name the same episode';
export const ACCEPTED_TRUE =
  'what is accepted by itself is what truly came into (by loss: out of) the right vessel since its zero, to within three divisions';

/** Of what is taken from a scale. */
export const OF_WEIGHTS: readonly Invariant[] = [
  {
    name: ACCEPTED_ONCE,
    check: ({ record, fresh }) =>
      accepts(fresh).flatMap((entry) => {
        const { episode } = entry.body.weighed;
        const others = record.entries.filter(
          (one) => one.kind === 'weight-accepted' && one.boot === entry.boot && one.body.weighed.episode === episode,
        );
        return others.length > 1 ? [`episode ${episode} of ${entry.boot}: ${others.map(({ id }) => id).join(', ')}`] : [];
      }),
  },
  {
    name: 'a settled weight is used up by whatever takes it: episodes rise from one taking to the next',
    check: ({ record, fresh }) =>
      fresh.flatMap(({ entry, commit }) => {
        const episode = usedBy(entry, commit);
        if (episode === null) return [];
        const since = record.entries.indexOf(entry);
        const later = record.entries
          .slice(0, since)
          .some((one) => one.boot === entry.boot && one.batch === entry.batch && (consumedBy(one) ?? -1) >= episode);
        return later ? [`${entry.kind} ${entry.id}: episode ${episode} of ${entry.boot} was used up before`] : [];
      }),
  },
  {
    name: 'nothing is taken from a scale that is not fresh, moves, is suspect or was never heard to say it',
    check: ({ play, fresh }) =>
      fresh.flatMap(({ entry, commit }) => {
        const taken = takenBy(entry, commit);
        if (taken === null) return [];
        const why = notSettled(play.happened, entry, taken.instrument, taken.gross);
        const unread = taken.weighed === null ? null : notRead(play.happened, entry, taken.weighed);
        return [why, unread].flatMap((no) => (no === null ? [] : [`${entry.kind} ${entry.id}: ${no}`]));
      }),
  },
  {
    name: 'a weight is taken on the scale of its line, for the line whose turn it is, from the zero of its own vessel',
    check: ({ fresh }) =>
      fresh.flatMap(({ entry, before }) => {
        if (entry.kind !== 'weight-accepted') return [];
        const { line, vessel, weighed } = entry.body;
        const plan = before?.lines[line]?.plan;
        const pan = before?.pans[weighed.instrument];
        const sign = plan?.mode === 'loss' ? -1 : 1;
        return [
          plan?.scale === roleOf(weighed.instrument) ? null : `on ${weighed.instrument}`,
          before?.open === line ? null : `out of turn: ${before?.open} is open`,
          pan?.vessel === vessel && pan.line === line && pan.zero === weighed.zero ? null : 'from another zero',
          weighed.net === sign * (weighed.gross - weighed.zero) && weighed.net > 0 ? null : `net ${weighed.net}`,
        ].flatMap((no) => (no === null ? [] : [`${entry.id}: ${no}`]));
      }),
  },
  {
    name: ACCEPTED_TRUE,
    check: ({ play, record, fresh }) =>
      accepts(fresh).flatMap((entry) => {
        if (entry.body.how !== 'by-itself') return [];
        const untrue = notTrue({ happened: play.happened, seed: play.story.seed }, record.entries, entry);
        return untrue === null ? [] : [`${entry.id} of ${entry.body.line}: ${untrue}`];
      }),
  },
  {
    name: 'a hydroxide line is taken only by a person who holds, with its precautions confirmed, and never after joining',
    check: ({ play, fresh }) =>
      fresh.flatMap(({ entry, before }) => {
        if (entry.kind !== 'weight-accepted' && entry.kind !== 'weight-typed') return [];
        if (before?.lines[entry.body.line]?.plan.material.class !== 'hydroxide') return [];
        const want = entry.intent === null ? undefined : play.happened.sent.get(entry.intent)?.intent.want;
        const held = want !== undefined && (('hold' in want && want.hold) || ('held' in want && want.held === true));
        return [
          held ? null : `by ${want?.kind ?? 'nobody'}`,
          entry.kind === 'weight-typed' || entry.body.how === 'held' ? null : entry.body.how,
          before.gateLines[entry.body.line] === undefined ? 'without its precautions' : null,
          before.joined === null ? null : 'after joining',
        ].flatMap((no) => (no === null ? [] : [`${entry.id}: ${no}`]));
      }),
  },
  {
    name: 'a portion is taken only by a person, and is what its pot lost',
    check: ({ fresh }) =>
      fresh.flatMap(({ entry }) => {
        if (entry.kind !== 'split' || entry.body.weighed === undefined) return [];
        const { gross, zero, net } = entry.body.weighed;
        const masses = entry.body.parts.map(({ mass }) => mass);
        return entry.intent !== null && net > 0 && net === zero - gross && same(masses, [net]) ? [] : [`${entry.id}: ${masses.join(', ')}`];
      }),
  },
  {
    name: 'a part, a mould or a rest is taken only by a person, and is what came in since its own empty mass, or what its one jug lost',
    check: ({ fresh }) =>
      fresh.flatMap(({ entry, before }) => {
        if (!isPoured(entry) || entry.body.weighed === undefined) return [];
        const { mass, weighed } = entry.body;
        const { gross, zero, net, instrument } = weighed;
        const gained = gross >= zero;
        const own = before === null ? null : zeroFor(before, entry);
        const right = own === null || (own.instrument === null || own.instrument === instrument ? own.zero === zero : false);
        return [
          entry.intent === null ? 'by nobody' : null,
          net === mass && net === Math.abs(gross - zero) ? null : `${mass} of ${gross} − ${zero}`,
          gained && !right ? `from ${zero}` : null,
          !gained && entry.kind === 'mould-poured' && entry.body.from.length !== 1 ? 'of several jugs' : null,
        ].flatMap((no) => (no === null ? [] : [`${entry.id}: ${no}`]));
      }),
  },
  {
    name: 'a line with no stated lot is never accepted by itself',
    check: ({ fresh }) => accepts(fresh).flatMap(({ id, body }) => (body.how === 'by-itself' && body.lot === null ? [id] : [])),
  },
];

type Poured = EntryOf<'parted'> | EntryOf<'mould-poured'> | EntryOf<'left-over'>;
const isPoured = (entry: Entry): entry is Poured => entry.kind === 'parted' || entry.kind === 'mould-poured' || entry.kind === 'left-over';

/** From where it counts by its gain. */
const zeroFor = (batch: BatchState, entry: Poured) => {
  if (entry.kind === 'left-over') {
    const { of } = entry.body;
    const empty =
      of === 'pot'
        ? Object.values(batch.vessels).find(({ state }) => state === 'joined' || state === 'portioned')?.empty
        : batch.pour.set[of]?.gross;
    return { instrument: null, zero: empty ?? null };
  }
  const key = entry.kind === 'parted' ? (`part:${entry.body.part}` as const) : (`mould:${entry.body.mould}` as const);
  const before = batch.pour.pours.filter(({ mould, struck, by }) => key === `mould:${mould}` && struck === null && by === 'gain');
  const set = batch.pour.set[key];
  return set === undefined
    ? { instrument: null, zero: null }
    : { instrument: set.instrument, zero: set.gross + before.reduce((sum, { mass }) => sum + mass, 0) };
};

/** The settled weight that stands in an entry as evidence. */
const weighedIn = (entry: Entry): Weighed | null =>
  entry.kind === 'weight-accepted' || entry.kind === 'weighed-back' || entry.kind === 'split' || isPoured(entry)
    ? (entry.body.weighed ?? null)
    : null;

/** The episode an entry uses up. */
const consumedBy = (entry: Entry): number | null =>
  weighedIn(entry)?.episode ?? (entry.kind === 'vessel-set' || entry.kind === 'container-set' ? entry.body.episode : null);

/** The same of what was taken anew: what follows from an accept in its commit names the accept's own. */
const usedBy = (entry: Entry, commit: number): number | null => (entry.kind === 'vessel-set' && commit !== 0 ? null : consumedBy(entry));

/** What an entry took from a scale. What follows from an accept in the same commit takes nothing itself. */
const takenBy = (entry: Entry, commit: number) => {
  const weighed = weighedIn(entry);
  if (weighed !== null) {
    return { instrument: weighed.instrument, gross: weighed.gross, weighed };
  }
  if (commit !== 0) return null;
  if (entry.kind === 'vessel-set' || entry.kind === 'container-set')
    return { instrument: entry.body.instrument, gross: entry.body.gross, weighed: null };
  if (entry.kind === 'scale-checked') return { instrument: entry.body.instrument, gross: entry.body.shown, weighed: null };
  return null;
};
