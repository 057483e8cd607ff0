import { lostBy } from './law';
import { wanderTogether, type Wander } from './wander';
import type { CureWatch } from './types';

/**
 * What weighings say of the loss since cutting. Bars first weighed on a later day tell how they lost since then: with y lost of that
 * weight, the loss at the weighing less (1 − y) times the loss on the first day is y. Linear, so law and room are looked at alike.
 */
type Seen = Pick<CureWatch, 'weighings' | 'from'>;

const begun = ({ from = 0 }: Seen): number => from;

/** Share of the loss of day 60 that each weighing would show under a law. */
export const lawSeen = (watch: Seen, u: number, v: number): Float64Array => {
  const first = lostBy(begun(watch), u, v);
  return Float64Array.from(watch.weighings, ({ day, loss }) => lostBy(day, u, v) - (1 - loss) * first);
};

/** What the room does to each weighing and to each of some days together, row by row: days by weighings. */
export const roomSeenFrom = (room: Wander, days: readonly number[], watch: Seen): Float64Array => {
  const { weighings } = watch;
  const from = begun(watch);
  const all = new Float64Array(days.length * weighings.length);
  for (const [i, day] of days.entries()) {
    const first = wanderTogether(room, day, from);
    for (const [j, one] of weighings.entries()) all[i * weighings.length + j] = wanderTogether(room, day, one.day) - (1 - one.loss) * first;
  }
  return all;
};

/** What the room does to every two weighings together. */
export const roomSeen = (room: Wander, watch: Seen): Float64Array => {
  const { weighings } = watch;
  const n = weighings.length;
  const [at, first] = [
    roomSeenFrom(
      room,
      weighings.map(({ day }) => day),
      watch,
    ),
    roomSeenFrom(room, [begun(watch)], watch),
  ];
  return at.map((value, k) => value - (1 - (weighings[Math.floor(k / n)]?.loss ?? 0)) * (first[k % n] as number));
};
