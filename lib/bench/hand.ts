import type { PersonId } from '#lib/units/id';
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

/** How much lags differ between people, and between the pours of one, ms (standard deviations): assumptions, tried on simulated hands. */
const BETWEEN_PEOPLE_MS = 180;
const BETWEEN_POURS_MS = 220;
/** One odd pour counts for no more than this, ms. */
const ODD_MS = 700;
/** A bias shows when the mean lies this many of its own standard deviations from none. */
const SHOWS = 1.5;
const LEAST = 3;
const KEPT = 40;

/** The lag of a person from their newest pours: the weighted mean, shrunken towards none, and none at all while it may be chance. */
export const learnHand = (stops: readonly Omit<Stopped, 'hand'>[]): Hand => {
  let weights = 0;
  let sum = 0;
  for (const { came, coming, rate, step } of stops) {
    const odd = Math.min(Math.max((1000 * (came - coming)) / rate, -ODD_MS), ODD_MS);
    const weight = 1 / (BETWEEN_POURS_MS ** 2 + ((1000 * step) / rate) ** 2);
    weights += weight;
    sum += weight * odd;
  }
  const seen = stops.length;
  if (seen < LEAST) return { seen, lag: 0 };
  const mean = sum / weights;
  if (Math.abs(mean) < SHOWS / Math.sqrt(weights)) return { seen, lag: 0 };
  return { seen, lag: Math.round((mean * weights) / (weights + 1 / BETWEEN_PEOPLE_MS ** 2)) };
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
