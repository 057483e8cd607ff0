import { quantile, rateOf, type Share } from '../interval';
import { AHEAD_MIN, shareOf, type Noticed, type Tally } from './tally';

/** One thing that has to hold, as a person reads it. */
export interface Bound {
  readonly name: string;
  readonly found: string;
  readonly wanted: string;
  readonly holds: boolean;
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;

const atLeast = (name: string, share: Share, least: number): Bound => ({
  name,
  found: `${percent(rateOf(share))} of ${share.of}`,
  wanted: `at least ${percent(least)}`,
  holds: rateOf(share) >= least,
});

const seenOf = (noticed: readonly Noticed[]): Share => ({
  seen: noticed.filter(({ after }) => after < Number.POSITIVE_INFINITY).length,
  of: noticed.length,
});

/** What `npm run calibration:forecast` fails beyond. */
export const boundsOf = (tally: Tally): readonly Bound[] => {
  const { meetings } = tally;
  const lids = (tally.noticed.get('lid') ?? []).filter(({ change }) => change >= 2);
  const plain = ['bath', 'bath and out', 'hob', 'poured'].flatMap((kind) => tally.noticed.get(kind) ?? []);
  const false100 = (360_000 * tally.falseMarks) / tally.quietS;
  const errors = meetings.errors.filter((error) => error < Number.POSITIVE_INFINITY);
  return [
    ...AHEAD_MIN.map((minutes): Bound => {
      const share = shareOf(['lye', 'oils'].flatMap((kind) => tally.held.get(kind)?.get(minutes) ?? []));
      const rate = rateOf(share);
      return {
        name: `95 % intervals hold ${minutes} min ahead`,
        found: `${percent(rate)} of ${share.of}`,
        wanted: '90 to 98 %',
        holds: rate >= 0.9 && rate <= 0.98,
      };
    }),
    atLeast('vessels with a forecast by 15 min', { seen: tally.answered, of: tally.vessels }, 0.8),
    atLeast('pairs with an answer about the meeting by 15 min', { seen: tally.pairsAnswered, of: tally.pairs }, 0.8),
    {
      name: 'forecasts of what cannot be known yet',
      found: String(tally.tooEarly.length),
      wanted: 'none',
      holds: tally.tooEarly.length === 0,
    },
    atLeast('baths, hobs and cold oil noticed', seenOf(plain), 0.97),
    ...(lids.length < 10 ? [] : [atLeast('lids that change twenty minutes by 2 K or more noticed', seenOf(lids), 0.6)]),
    {
      name: 'marks where nothing had happened, in 100 vessel-hours',
      found: `${false100.toFixed(1)}, from ${(tally.quietS / 3600).toFixed(0)}`,
      wanted: 'at most 2',
      holds: false100 <= 2,
    },
    atLeast('spans of a meeting that hold it', meetings.in, 0.9),
    atLeast('"not before" kept', meetings.notBefore, 0.95),
    atLeast('"never by themselves" kept', meetings.never, 0.98),
    atLeast('"met" within two minutes', meetings.met, 0.98),
    {
      name: 'median error of a meeting',
      found: `${quantile(errors, 0.5).toFixed(2)} min`,
      wanted: 'at most 2 min',
      holds: quantile(errors, 0.5) <= 2,
    },
    {
      name: 'median width of a meeting',
      found: `${quantile(meetings.widths, 0.5).toFixed(1)} min`,
      wanted: 'at most 17 min',
      holds: quantile(meetings.widths, 0.5) <= 17,
    },
  ];
};
