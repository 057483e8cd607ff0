import type { PersonId } from '#lib/units/id';
import { sumOfAll } from '#lib/units/sum';
import type { Entry } from '#lib/work/batch/index';

/** One pour that ended because the bench said so, as the record has it. Masses in mg, `rate` in mg per s. */
export interface Stopped {
  readonly hand: PersonId;
  /** What still came in after the cue. */
  readonly came: number;
  /** What the fixed lag expected to come. */
  readonly coming: number;
  readonly rate: number;
  /** Scale division. */
  readonly step: number;
}

/** What the bench has learnt of one person's hand. `lag`: ms on top of the fixed lag (negative: a quicker hand); 0 while no bias shows. */
export interface Hand {
  readonly seen: number;
  readonly lag: number;
}

export const NEW_HAND: Hand = { seen: 0, lag: 0 };

/** How much lags differ between people, ms (standard deviation): an assumption, tried on simulated hands. */
const BETWEEN_PEOPLE_MS = 180;
/** How much the pours of one person differ before any is seen, ms, and how many pours that counts for. */
const BETWEEN_POURS_MS = 150;
const COUNTS_FOR = 2;
/** One odd pour counts for no more than this, ms. */
const ODD_MS = 700;
/** A bias shows when the mean lies this many of its own standard deviations from none. */
const SHOWS = 1.5;
const LEAST = 3;
const KEPT = 40;

/** Mean of the lags and its variance, each lag known to `read` ms by the scale and scattering by `scatter` ms. */
const weighted = (lags: readonly { readonly ms: number; readonly read: number }[], scatter: number) => {
  const weights = lags.map(({ read }) => 1 / (scatter ** 2 + read ** 2));
  const all = sumOfAll(weights);
  return { mean: lags.reduce((sum, { ms }, i) => sum + ms * (weights[i] ?? 0), 0) / all, variance: 1 / all };
};

/** The lag of a person from their newest pours: the weighted mean, shrunken towards none, and none at all while it may be chance. */
export const learnHand = (stops: readonly Omit<Stopped, 'hand'>[]): Hand => {
  const seen = stops.length;
  if (seen < LEAST) return { seen, lag: 0 };
  const lags = stops.map(({ came, coming, rate, step }) => ({
    ms: Math.min(Math.max((1000 * (came - coming)) / rate, -ODD_MS), ODD_MS),
    read: (1000 * step) / rate,
  }));
  const { mean: first } = weighted(lags, BETWEEN_POURS_MS);
  const squares = lags.reduce((sum, { ms, read }) => sum + Math.max((ms - first) ** 2 - read ** 2, 0), 0);
  const scatter = Math.sqrt((COUNTS_FOR * BETWEEN_POURS_MS ** 2 + squares) / (COUNTS_FOR + seen - 1));
  const { mean, variance } = weighted(lags, scatter);
  if (Math.abs(mean) < SHOWS * Math.sqrt(variance)) return { seen, lag: 0 };
  return { seen, lag: Math.round((mean * BETWEEN_PEOPLE_MS ** 2) / (BETWEEN_PEOPLE_MS ** 2 + variance)) };
};

/** What an entry tells of the hand that poured it; `null`: nothing. A crossed-out weight tells as much: the hand was the same. */
export const stoppedBy = (entry: Entry): Stopped | null => {
  if (entry.kind !== 'weight-accepted' || entry.body.eased === undefined) return null;
  const { eased, weighed } = entry.body;
  if (eased.rate <= 0) return null;
  return { hand: eased.hand, came: weighed.net - eased.net, coming: eased.coming, rate: eased.rate, step: weighed.step };
};

/** Everyone's newest pours, and what they teach. */
export interface Hands {
  of(person: PersonId): Hand;
  saw(stopped: Stopped): void;
}

export const createHands = (stops: readonly Stopped[]): Hands => {
  const kept = new Map<PersonId, Stopped[]>();
  const learnt = new Map<PersonId, Hand>();
  const saw = (stopped: Stopped): void => {
    const newest = [...(kept.get(stopped.hand) ?? []), stopped].slice(-KEPT);
    kept.set(stopped.hand, newest);
    learnt.set(stopped.hand, learnHand(newest));
  };
  for (const stopped of stops) saw(stopped);
  return { of: (person) => learnt.get(person) ?? NEW_HAND, saw };
};
