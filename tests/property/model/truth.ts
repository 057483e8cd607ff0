import type { Entry, EntryOf } from '#lib/work/batch/index';
import { natureOf } from '#tests/support/model/nature';
import { roleOf } from './evidence';
import type { Happened, Standing } from './happened';
import type { Accepted } from './record';

/** What noise and rounding at both ends of a weighing come to, in the mean of the true divisions there. */
const DIVISIONS = 3;
/** A stream is summed in fractions: what comes to a limit by them is no more than it, mg. */
const ROUNDED = 1;
/** The vessel a line weighed by its loss is poured from: no plan names it. */
const BOTTLE = 'bottle';

/**
 * What is untrue of an accepted weight by what really stood on the scale when it was zeroed and when it was taken; `null`: it is true. It is
 * the difference of the two grosses that is compared: a zero a person shifted on purpose, for what they said they took out, stays theirs.
 *
 * Two things no figure can tell: what came or went within the scale's own delay, which no reading shows yet; and what the scale itself has
 * wandered by while its pan was never free. Of frames that come in one chunk, which of them it was is not known.
 */
export const notTrue = ({ happened, seed }: Seen, entries: readonly Entry[], entry: Accepted): string | null => {
  const { line, vessel, weighed } = entry.body;
  const role = roleOf(weighed.instrument);
  const zeroed = zeroOf(entries, entry);
  if (role === null || zeroed === null) return 'nothing was zeroed for it';
  const delay = natureOf(seed, role).rise;
  const [then = [], now = []] = [zeroed, entry].map((one) =>
    happened.stoodSince(role, one.boot, happened.timeOf(one.boot, one.mono), delay),
  );
  if (then[0] === undefined || now[0] === undefined) return `${role} had not spoken`;
  const loss = (weighed.gross - weighed.zero) * weighed.net < 0;
  const right = named(happened, entries, entry, loss ? BOTTLE : vessel) ? then[0].vessel : loss ? BOTTLE : vessel;
  const [first, last] = [then, now].map((ones) => ones.filter((one) => one.vessel === right));
  if (!first?.length || !last?.length)
    return `${then[0].vessel} stood there at the zero and ${now[0].vessel} at the end, ${line} belongs to ${right}`;
  const said = weighed.gross - zeroed.body.gross;
  const off = last.flatMap((end) => first.map((start) => Math.abs(said - (seenOf(end) - seenOf(start)))));
  const limit = (DIVISIONS * (then[0].division + now[0].division)) / 2 + ROUNDED;
  return Math.min(...off) <= limit ? null : `${role} said ${said}, ${round(now[0], then[0])} came in`;
};

/** By whom it is looked at. */
interface Seen {
  readonly happened: Happened;
  readonly seed: number;
}

const seenOf = ({ contents, drift }: Standing): number => contents + drift;

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
