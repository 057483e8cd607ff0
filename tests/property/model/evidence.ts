import type { ScaleRole } from '#lib/measure/instrument';
import type { InstrumentId } from '#lib/units/id';
import type { Entry, Weighed } from '#lib/work/batch/index';
import { MODEL_SCALES } from '#tests/support/model/world';
import { acceptKey } from './happened';
import type { Delivered, Happened } from './happened';
import type { Accepted } from './record';

/** Newest reading at most this old when a weight is taken: no scale is fresh for longer. */
const FRESH_MS = 1_500;
/** A settled window is never shorter, and everything in it lies within so many true divisions of what is taken. */
const STILL_MS = 1_000;
const STILL_DIVISIONS = 5;
/** The page that holds the bench was heard of within this. */
const LEASE_MS = 10_000;

export const roleOf = (instrument: InstrumentId): ScaleRole | null =>
  (['main', 'fine'] as const).find((role) => MODEL_SCALES[role].id === instrument) ?? null;

/** Why a settled gross was not there to be taken when the entry says, by the readings that were given; `null`: it was. */
export const notSettled = (happened: Happened, entry: Entry, instrument: InstrumentId, gross: number): string | null => {
  const at = happened.timeOf(entry.boot, entry.mono);
  const no = notSettledAt(happened, entry, instrument, gross, at);
  // What arrived in that very millisecond may have come after it.
  return no === null ? null : notSettledAt(happened, entry, instrument, gross, at - 0.5) && no;
};

const notSettledAt = (happened: Happened, entry: Entry, instrument: InstrumentId, gross: number, at: number): string | null => {
  const role = roleOf(instrument);
  if (role === null) return `no scale is called ${instrument}`;
  const newest = happened.newest(role, entry.boot, at)[0] ?? null;
  if (newest === null || at - newest.at > FRESH_MS) return `nothing fresh from ${role}`;
  const from = newest.at - STILL_MS;
  const upset = happened.lastDisarming(role, entry.boot, at);
  if (upset !== null && upset.at > from) return `${role} was disarmed ${at - upset.at} ms before`;
  const window = happened.delivered.filter((one) => one.role === role && one.boot === entry.boot && one.at >= from && one.at <= at);
  const limit = STILL_DIVISIONS * Math.max(...window.map(({ division }) => division), MODEL_SCALES[role].division);
  const unlike = window.find((one) => one.mass === null || Math.abs(one.mass - gross) > limit);
  if (unlike !== undefined) return `${role} read ${unlike.mass} ${at - unlike.at} ms before ${gross} was taken`;
  if (window.some((one) => one.suspect)) return `${role} said more than it can carry`;
  if (window.length >= 2 && window.slice(-2).every((one) => one.moving)) return `${role} said that it moves`;
  return null;
};

/** Why these are no words of this scale; `null`: gross, text and bytes are one reading it gave. */
export const notRead = (happened: Happened, entry: Entry, weighed: Weighed): string | null => {
  const role = roleOf(weighed.instrument);
  const at = happened.timeOf(entry.boot, entry.mono);
  const isIt = (one: Delivered): boolean =>
    one.role === role && one.boot === entry.boot && one.at <= at && at - one.at <= 6_000 && one.waited !== 'yes' && one.raw === weighed.raw;
  const found = happened.delivered.find((one) => isIt(one) && one.mass === weighed.gross && one.text === weighed.text);
  return found === undefined ? `${role} never said ${weighed.text} with these bytes` : null;
};

/** Both when the weight was wanted and when the record came to it. */
export const notLeased = (happened: Happened, entry: Accepted): string | null => {
  const wanted = happened.timeOf(entry.boot, entry.mono);
  const decided = happened.decided.get(acceptKey(entry.boot, entry.body.weighed.episode));
  if (decided === undefined) return 'nobody decided it';
  const moments = [{ at: wanted, holder: happened.holderAt(entry.boot, wanted) ?? happened.holderAt(entry.boot, wanted - 1) }, decided];
  return moments.reduce<string | null>((no, { at, holder }) => {
    if (no !== null || holder === null) return no ?? 'nobody holds the bench';
    return at - holder.heardAt >= LEASE_MS ? `the holder was last heard ${at - holder.heardAt} ms before` : null;
  }, null);
};
