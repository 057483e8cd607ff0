import type { Entry, EntryOf } from '#lib/work/batch/index';
import { MODEL_SCALES } from '#tests/support/model/world';
import { roleOf } from './evidence';
import type { Happened, Standing } from './happened';
import type { Accepted } from './record';

/** What noise and rounding at both ends of a weighing come to. */
const DIVISIONS = 3;
/** The vessel a line weighed by its loss is poured from: no plan names it. */
const BOTTLE = 'bottle';

/**
 * What is untrue of an accepted weight by what really stood on the scale when it was zeroed and when it was taken; `null`: it is true. It is
 * the difference of the two grosses that is compared: a zero a person shifted on purpose, for what they said they took out, stays theirs.
 */
export const notTrue = (happened: Happened, entries: readonly Entry[], entry: Accepted): string | null => {
  const { line, vessel, weighed } = entry.body;
  const role = roleOf(weighed.instrument);
  const zeroed = zeroOf(entries, entry);
  if (role === null || zeroed === null) return 'nothing was zeroed for it';
  const [then, now] = [zeroed, entry].map((one) => happened.standing(role, one.boot, happened.timeOf(one.boot, one.mono)));
  if (!then || !now) return `${role} had not spoken`;
  const loss = (weighed.gross - weighed.zero) * weighed.net < 0;
  const right = named(happened, entries, entry, loss ? BOTTLE : vessel) ? then.vessel : loss ? BOTTLE : vessel;
  if (then.vessel !== right || now.vessel !== right)
    return `${then.vessel} stood there at the zero and ${now.vessel} at the end, ${line} belongs to ${right}`;
  const off = weighed.gross - zeroed.body.gross - (now.contents - then.contents);
  const limit = DIVISIONS * MODEL_SCALES[role].division;
  return Math.abs(off) <= limit ? null : `${role} said ${weighed.gross - zeroed.body.gross}, ${round(now, then)} came in`;
};

/** A person held the card that says which vessel it is, and it was another: from then on the bench goes by their word and its mass. */
const named = (happened: Happened, entries: readonly Entry[], { id, batch, body }: Accepted, right: string): boolean => {
  const until = entries.findIndex((one) => one.id === id);
  return entries.slice(0, until).some((one, i) => {
    const byPerson = one.kind === 'vessel-set' && one.intent !== null && entries[i - 1]?.intent !== one.intent;
    if (!byPerson || one.batch !== batch || one.body.vessel !== body.vessel) return false;
    const role = roleOf(one.body.instrument);
    return role !== null && happened.standing(role, one.boot, happened.timeOf(one.boot, one.mono))?.vessel !== right;
  });
};

const round = (now: Standing, then: Standing): number => Math.round(now.contents - then.contents);

/** The vessel set down for this line from which it still counts: one set down anew with an older zero goes back to that. */
const zeroOf = (entries: readonly Entry[], { id, batch, body }: Accepted): EntryOf<'vessel-set'> | null => {
  const until = entries.findIndex((one) => one.id === id);
  for (let i = until - 1; i >= 0; i -= 1) {
    const one = entries[i];
    if (one?.kind !== 'vessel-set' || one.batch !== batch || one.body.instrument !== body.weighed.instrument) continue;
    if (one.body.line === body.line && one.body.vessel === body.vessel && one.body.zero === undefined) return one;
  }
  return null;
};
