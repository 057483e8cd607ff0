import type { NamedLimit } from '#lib/soap/remedy/limits';
import { excessOf } from '#lib/soap/remedy/programme';
import { mg, type Milligrams } from '#lib/units/mass';
import type { LinePlan } from '../plan';

const GRAM = 1000;
/** Last binary digits take no division away. */
const HAIR = 1e-9;

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

const OF_THE_BENCH: ReadonlySet<NamedLimit['name']> = new Set(['moulds', 'brim', 'scale-capacity']);

/** Not what the formula asks, but what moulds, vessels and scales bear. */
export const isOfBench = ({ name }: NamedLimit): boolean => OF_THE_BENCH.has(name);

/** Half-width of a line that is wanted, and the least that can be poured: a division of its scale. Milligrams; 0 where nothing is to come. */
export interface Half {
  readonly wanted: number;
  readonly least: number;
}

/**
 * Half-widths narrowed until all lines together, each at the worst end of its own, stay inside what the formula asks: the least to each, and
 * of the rest the same part of what is wanted. What is left already narrows nothing: it was loosened. Same order as the grams.
 */
export const togetherInside = (limits: readonly NamedLimit[], grams: readonly number[], halves: readonly Half[]): readonly number[] => {
  const parts = halves.map(() => 1);
  for (const limit of limits) {
    const each = limit.coefficients.map(Math.abs);
    const spare = -excessOf(limit, grams) * GRAM;
    const least = halves.reduce((sum, one, i) => sum + one.least * (each[i] ?? 0), 0);
    const more = halves.reduce((sum, { wanted, least }, i) => sum + (wanted - least) * (each[i] ?? 0), 0);
    if (isOfBench(limit) || spare < 0 || least + more <= spare) continue;
    const part = Math.max(0, (spare - least) / more);
    for (let i = 0; i < parts.length; i += 1) if ((each[i] ?? 0) !== 0) parts[i] = Math.min(parts[i] ?? 1, part);
  }
  return halves.map(({ wanted, least }, i) => least + (wanted - least) * (parts[i] ?? 1));
};

/** Greatest weight that keeps every limit: what nobody had computed stays so, and what no limit is about keeps what it had. */
export const upperAt = ({ upper, target: before }: LinePlan, target: number, { up }: Room): Milligrams | null => {
  if (upper === null) return null;
  return mg(target + (Number.isFinite(up) ? Math.floor(up) : Math.max(0, upper - before)));
};

/** Half-width at the moved target, mg: as wide beside it as it was, narrowed to the room there is on either side, never wider than planned. */
export const toleranceAt = (
  { tolerance, target: before }: LinePlan,
  target: number,
  pour: number,
  room: Room,
  division: number,
): number => {
  const share = Math.min(tolerance, (tolerance * target) / Math.max(1, before), Math.max(pour, division) / 2);
  return Math.min(share, room.up, room.down);
};

/** In whole divisions of its scale, and never finer than one: finer nobody can pour. */
export const inDivisions = (half: number, { tolerance }: LinePlan, division: number): Milligrams =>
  mg(Math.max(Math.min(division, tolerance), Math.floor(half / division + HAIR) * division, 1));
