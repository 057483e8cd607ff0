import type { NamedLimit } from '#lib/soap/remedy/limits';
import { excessOf } from '#lib/soap/remedy/programme';
import { mg, type Milligrams } from '#lib/units/mass';
import type { LinePlan } from '../plan';

const GRAM = 1000;

/** Milligrams that one line alone may be off by, up and down, all else as it is; infinite where no limit is about it. */
export interface Room {
  readonly up: number;
  readonly down: number;
}

export const roomOf = (limits: readonly NamedLimit[], grams: readonly number[], at: number): Room => {
  let [up, down] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (const limit of limits) {
    const each = limit.coefficients[at] ?? 0;
    const spare = Math.max(0, -excessOf(limit, grams)) * GRAM;
    if (each > 0) up = Math.min(up, spare / each);
    if (each < 0) down = Math.min(down, spare / -each);
  }
  return { up, down };
};

/** Greatest weight that keeps every limit: what nobody had computed stays so, and what no limit is about keeps what it had. */
export const upperAt = ({ upper, target: before }: LinePlan, target: number, { up }: Room): Milligrams | null => {
  if (upper === null) return null;
  return mg(target + (Number.isFinite(up) ? Math.floor(up) : Math.max(0, upper - before)));
};

/**
 * Half-width at the moved target: as wide beside it as it was, narrowed to the room there is on either side, never finer than a division
 * of its scale and never wider than it was planned.
 */
export const toleranceAt = (
  { tolerance, target: before }: LinePlan,
  target: number,
  pour: number,
  room: Room,
  division: number,
): Milligrams => {
  const inStep = (value: number): number => Math.floor(value / division) * division;
  const share = Math.min(tolerance, (tolerance * target) / Math.max(1, before), Math.max(pour, division) / 2);
  return mg(Math.max(Math.min(division, tolerance), inStep(Math.min(share, room.up, room.down)), 1));
};
