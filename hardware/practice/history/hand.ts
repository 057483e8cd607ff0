import type { Eased } from '#lib/work/batch/index';
import { mg } from '#lib/units/mass';
import type { PersonId } from '#lib/units/id';
import type { Random } from '../world/random';

/** How one person pours: in parts of a tolerance, and how often something goes wrong. Invented, no source. */
export interface Hand {
  readonly person: PersonId;
  /** Mean and scatter of where a pour ends, in tolerances. */
  readonly bias: number;
  readonly scatter: number;
  /** Chance of pouring over, and of crossing that out rather than leaving it. */
  readonly over: number;
  readonly crossesOut: number;
  /** Milliseconds between the bench's word and the hand. */
  readonly lag: number;
  /** Seconds a line takes beyond its flow. */
  readonly pace: number;
}

/** Where a pour ends past its target, mg. */
export const pourEnd = (hand: Hand, tolerance: number, random: Random, drift: number): number => {
  if (random.next() < hand.over) return tolerance * random.between(1.15, 3.2);
  const within = hand.bias + drift + hand.scatter * random.gauss();
  return tolerance * Math.max(-0.97, Math.min(0.97, within));
};

/** What the bench had said of this pour before it ended: so much came after "ease off" as flow and lag make. */
export const eased = (hand: Hand, net: number, random: Random): Eased => {
  const rate = Math.round(random.between(2_000, 14_000));
  const came = Math.round((rate * Math.max(40, hand.lag + 90 * random.gauss())) / 1000);
  return { hand: hand.person, net: mg(Math.max(0, net - came)), coming: mg(Math.round(rate * 0.32)), rate };
};
