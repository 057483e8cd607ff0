import { boundWhenNone, intervalOf, quantile, rateOf, type Share } from './interval';
import type { Tally } from './tally';

/**
 * The figures to reach: an earlier simulation of these rules, with its own scales, hands and mishaps (unpublished work of this project;
 * 32,000 undisturbed lines and 33,000 with one of 15 mishaps). Its mishaps were drawn alike, so about 2,200 lines had an object dropped in.
 */
const THEIRS = {
  boundOnAccepts: 1.35e-4,
  median: 3.0,
  p95: 7.7,
  asked: 0.058,
  littleMore: 0.05,
  wrong: { seen: 268, of: 33_000 },
  left: { seen: 182, of: 33_000 },
  leftDropped: { seen: 125, of: 2_200 },
  leftOthers: { seen: 57, of: 30_800 },
} as const;

export interface Measured {
  readonly clean: Tally;
  readonly cleanPieces: Tally;
  readonly disturbed: Tally;
  readonly disturbedPieces: Tally;
  /** Of the poured lines: those with an object dropped in. */
  readonly dropped: Tally;
}

export interface Mark {
  readonly name: string;
  readonly ours: string;
  readonly interval: string;
  readonly theirs: string;
  readonly verdict: string;
}

export const percent = (share: number): string => (Number.isNaN(share) ? '–' : `${(100 * share).toFixed(2)} %`);

const counted = (share: Share): string => `${share.seen} of ${share.of} = ${percent(rateOf(share))}`;

/** Met when ours is no higher; beside a miss it says whether chance alone could have made it. */
const verdictOf = (share: Share, theirs: number): string => {
  if (share.of === 0) return 'not measured';
  if (rateOf(share) <= theirs) return 'met';
  return intervalOf(share).low <= theirs ? 'not met (within chance)' : 'not met';
};

const rate = (name: string, share: Share, theirs: number, said: string): Mark => {
  const { low, high } = intervalOf(share);
  return { name, ours: counted(share), interval: `${percent(low)} – ${percent(high)}`, theirs: said, verdict: verdictOf(share, theirs) };
};

const time = (name: string, ours: number, theirs: number): Mark => ({
  name,
  ours: `${ours.toFixed(1)} s`,
  interval: '',
  theirs: `${theirs.toFixed(1)} s`,
  verdict: ours <= theirs ? 'met' : 'not met',
});

const wrongOnClean = ({ clean, cleanPieces }: Measured): Mark => {
  const seen = clean.wrong + cleanPieces.wrong;
  const of = clean.accepted + cleanPieces.accepted;
  const bound = seen === 0 ? `at most ${boundWhenNone(of).toExponential(2)} (95 %)` : percent(intervalOf({ seen, of }).high);
  const theirs = `0, at most ${THEIRS.boundOnAccepts.toExponential(2)}`;
  return {
    name: 'undisturbed: wrong of those accepted',
    ours: `${seen} of ${of}`,
    interval: bound,
    theirs,
    verdict: seen === 0 ? 'met' : 'not met',
  };
};

const share = (seen: number, of: number): Share => ({ seen, of });

const less = (all: number, part: number): number => all - part;

/** Every figure of the earlier simulation beside ours. Its lines were poured, as far as it says. */
export const marksOf = (measured: Measured): readonly Mark[] => {
  const { clean, disturbed, disturbedPieces, dropped } = measured;
  const others = share(less(disturbed.undetected, dropped.undetected), less(disturbed.lines, dropped.lines));
  const all = { wrong: disturbed.wrong + disturbedPieces.wrong, lines: disturbed.lines + disturbedPieces.lines };
  const left = disturbed.undetected + disturbedPieces.undetected;
  const wrong = rateOf(THEIRS.wrong);
  return [
    wrongOnClean(measured),
    time('undisturbed: time to accept, median', quantile(clean.seconds, 0.5), THEIRS.median),
    time('undisturbed: time to accept, 95 %', quantile(clean.seconds, 0.95), THEIRS.p95),
    rate('undisturbed: asked', share(clean.asked, clean.lines), THEIRS.asked, percent(THEIRS.asked)),
    rate('undisturbed: "a little more"', share(clean.littleMore, clean.lines), THEIRS.littleMore, `about ${percent(THEIRS.littleMore)}`),
    rate('disturbed: wrong at accept', share(disturbed.wrong, disturbed.lines), wrong, counted(THEIRS.wrong)),
    rate('disturbed: left after the lift', share(disturbed.undetected, disturbed.lines), rateOf(THEIRS.left), counted(THEIRS.left)),
    rate(
      '  of an object dropped in',
      share(dropped.undetected, dropped.lines),
      rateOf(THEIRS.leftDropped),
      `about ${counted(THEIRS.leftDropped)}`,
    ),
    rate('  of the other mishaps', others, rateOf(THEIRS.leftOthers), `about ${counted(THEIRS.leftOthers)}`),
    rate('with pieces: wrong at accept', share(all.wrong, all.lines), wrong, counted(THEIRS.wrong)),
    rate('with pieces: left after the lift', share(left, all.lines), rateOf(THEIRS.left), counted(THEIRS.left)),
  ];
};
