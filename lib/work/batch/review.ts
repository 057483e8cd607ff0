import type { EntryId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import { subMass } from '#lib/units/mass';
import { apart } from '#lib/units/temperature';
import type { Entry, EntryKind, EntryOf, Weighed } from './entries';
import { BrokenHistory, fold } from './evolve/index';
import { asPoured } from './poured/as-poured';
import { asCorrected } from './later/corrected';
import { lotsOf } from './lots';
import { resultOf } from './poured/result';
import { readResult } from './poured/result-schema';
import type { BatchState, Contribution, LineState } from './state';
import { summaryOf } from './summary';
import { mouldsOf } from './moulds';
import type { JoiningPlan } from './plan';
import { metAfter } from './review/met';
import { leftBehind, photosAsked } from './review/pour-story';
import { sizingOf } from './review/sizing';
import { tell } from './review/story';
import type { BatchReview, ReviewContribution, ReviewJoining, ReviewLine, ReviewPoured } from './review/types';

export type {
  BatchReview,
  ReviewAmendment,
  ReviewCheck,
  ReviewContribution,
  ReviewJoining,
  ReviewLine,
  ReviewPoured,
} from './review/types';
export { STORY_CODES, type StoryCode, type StoryEvent } from './review/story';

const ofKind = <K extends EntryKind>(entries: readonly Entry[], kind: K): readonly EntryOf<K>[] =>
  entries.filter((entry): entry is EntryOf<K> => entry.kind === kind);

/** The difference in thousandths of a tolerance, rounded to nearest. */
export const tolerancesAway = (difference: Milligrams, tolerance: Milligrams): number =>
  Math.sign(difference) * Math.round((Math.abs(difference) * 1000) / tolerance) || 0;

/** What told the mass of a mixture, of which a line has its share. */
const mixtureWeighed = (entry: Entry): Weighed | undefined => {
  if (entry.kind === 'withdrawn') return entry.body.weighed;
  return entry.kind === 'batch-started' ? entry.body.from?.weighed : undefined;
};

const statedBy = (entry: Entry): Pick<ReviewContribution, 'stated' | 'instrument' | 'checked' | 'lot'> => {
  if (entry.kind === 'weight-typed') {
    const { typed, lot } = entry.body;
    return { stated: { text: typed.text, unit: typed.unit }, instrument: null, checked: false, lot: lot?.mark ?? null };
  }
  if (entry.kind !== 'weight-accepted' && entry.kind !== 'weighed-back') {
    const told = mixtureWeighed(entry);
    return { stated: null, instrument: told?.instrument ?? null, checked: (told?.check ?? null) !== null, lot: null };
  }
  const { text, unit, instrument, check } = entry.body.weighed;
  const lot = entry.kind === 'weight-accepted' ? entry.body.lot : null;
  return { stated: { text, unit }, instrument, checked: check !== null, lot: lot?.mark ?? null };
};

const rightLotOf = ({ lot }: Contribution, stated: string | null): string | null =>
  lot === undefined || lot.mark === stated ? null : lot.mark;

const contribution = (one: Contribution, byId: ReadonlyMap<EntryId, Entry>): ReviewContribution => {
  const entry = byId.get(one.entry);
  if (entry === undefined) throw new BrokenHistory(`no entry ${one.entry} for a contribution`);
  const cross = one.struck === null ? undefined : byId.get(one.struck);
  const stated = statedBy(entry);
  return {
    entry: one.entry,
    kind: one.kind,
    net: one.net,
    how: one.how,
    ...stated,
    ...(one.kind === 'brought' ? { lot: one.lot?.mark ?? null, rightLot: null } : { rightLot: rightLotOf(one, stated.lot) }),
    amended: one.amended ?? null,
    by: entry.by,
    wall: entry.wall,
    offsetMin: entry.offsetMin,
    provisional: one.provisional,
    struck: cross?.kind === 'struck' ? { reason: cross.body.reason, note: cross.body.note, by: cross.by, wall: cross.wall } : null,
  };
};

const lineOf = (line: LineState, byId: ReadonlyMap<EntryId, Entry>): ReviewLine => {
  const { plan, planned, actual } = line;
  const difference = subMass(actual, plan.target);
  return {
    line: plan.id,
    material: plan.material.name,
    class: plan.material.class,
    phase: plan.phase,
    lot: plan.lot?.mark ?? null,
    planned,
    target: plan.target,
    tolerance: plan.tolerance,
    moved: plan.target !== planned.target || plan.tolerance !== planned.tolerance,
    actual,
    difference,
    away: tolerancesAway(difference, plan.tolerance),
    status: line.status,
    outcome: line.outcome,
    byHand: line.byHand,
    contributions: line.contributions.map((one) => contribution(one, byId)),
  };
};

const joiningOf = (entries: readonly Entry[], limits: JoiningPlan): ReviewJoining | null => {
  const [joined] = ofKind(entries, 'joined');
  if (joined === undefined) return null;
  const { lye, oils, overrides, byHand = [], course = null } = joined.body;
  const given = ofKind(entries, 'override').filter((entry) => entry.version < joined.version);
  return {
    lye,
    oils,
    apart: lye === null || oils === null ? null : apart(lye, oils),
    wall: joined.wall,
    offsetMin: joined.offsetMin,
    byHand,
    course,
    metAfter: course === null ? null : metAfter(course, limits),
    overrides: overrides.map((reason) => {
      const newest = given.findLast((entry) => entry.body.reason === reason);
      return {
        reason,
        value: newest?.body.value ?? null,
        limit: newest?.body.limit ?? null,
        superfat: newest?.body.superfat ?? null,
      };
    }),
  };
};

/** What a closed batch kept stands; what it kept in another program's way is worked out anew. */
const pouredOf = (entries: readonly Entry[], state: BatchState): ReviewPoured => {
  const kept = readResult(ofKind(entries, 'closed').at(-1)?.body.poured);
  const right = asCorrected(state);
  const again = right === null ? null : asPoured(right);
  const corrected = again?.kind === 'figures' ? { corrected: resultOf(again) } : {};
  if (kept !== null) return { kind: 'figures', kept: true, toCome: [], result: kept, ...corrected };
  const answer = asPoured(state);
  if (answer.kind !== 'figures') return answer;
  return { kind: 'figures', kept: false, toCome: answer.toCome, result: resultOf(answer), ...corrected };
};

/** All that is shown of a batch, from its entries alone. Throws `BrokenHistory` when they are not one batch from its start. */
export const review = (entries: readonly Entry[]): BatchReview => {
  const state: BatchState | null = fold(entries);
  const [started] = ofKind(entries, 'batch-started');
  if (state === null || started === undefined) throw new BrokenHistory('a batch without entries has no review');
  const byId = new Map(entries.map((entry) => [entry.id, entry]));
  return {
    summary: summaryOf(state),
    bench: state.bench,
    version: state.version,
    startedBy: state.startedBy,
    formula: state.plan.formula,
    lines: state.order.flatMap((id) => {
      const line = state.lines[id];
      return line === undefined ? [] : [lineOf(line, byId)];
    }),
    story: entries.flatMap((entry) => tell(entry, state)),
    joining: joiningOf(entries, state.plan.joining),
    poured: pouredOf(entries, state),
    limits: state.plan.joining,
    trace: state.trace,
    uncheckedScales: started.body.uncheckedScales,
    checks: ofKind(entries, 'scale-checked').map(({ body, wall }) => ({ ...body, wall })),
    parts: state.parts.map(({ name, mass, byHand }) => ({ name, mass, byHand })),
    moulds: mouldsOf(state),
    left: leftBehind(state),
    photos: photosAsked(state),
    amendments: ofKind(entries, 'amended').map(({ body, by, wall, offsetMin }) => ({ ...body, by, wall, offsetMin })),
    pictures: ofKind(entries, 'photo-kept').map(({ body, by, wall, offsetMin }) => ({ ...body, by, wall, offsetMin })),
    cleaned: ofKind(entries, 'cleaned').flatMap(({ body }) => body.items),
    lots: lotsOf(state),
    sizing: sizingOf(state),
  };
};
