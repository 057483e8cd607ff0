import type { LeastChange } from './least-change';
import { changeOf, type Programme } from './programme';

/** A remedy that can be weighed: every change in whole divisions, every limit kept by exactly these masses. */
export interface WholeChange {
  readonly objective: number;
  /** Beyond the continuous least change, grams: at most so far from the best there is. */
  readonly gap: number;
  readonly final: readonly number[];
  readonly own: readonly number[];
  /** Grams that leave each mixture. */
  readonly taken: readonly number[];
  /** Which quantities change. */
  readonly changed: readonly boolean[];
}

/** The change that these masses are; what stays where it was does not count as changed. Grams in the order of the programme. */
export const changeAt = (
  programme: Programme,
  least: LeastChange,
  own: readonly number[],
  taken: readonly number[],
  final: readonly number[],
): WholeChange => {
  const objective = changeOf(programme, final);
  const changed = programme.quantities.map(({ weighing }, i) => own[i] !== weighing.stays);
  return { objective, gap: objective - least.objective, final, own: [...own], taken: [...taken], changed };
};

const countOf = ({ changed }: WholeChange): number => changed.filter(Boolean).length;

/** The smallest addition, in what its scale can serve; the greater, the easier to weigh all of it. */
const easeOf = ({ quantities }: Programme, { own, changed }: WholeChange): number =>
  quantities.reduce((least, { weighing }, i) => {
    const { division, smallest, from, stays } = weighing;
    const added = (own[i] ?? 0) - stays;
    if (changed[i] !== true || division === null || from !== stays || added <= 0) return least;
    return Math.min(least, added / Math.max(smallest, division));
  }, Number.POSITIVE_INFINITY);

/** Divisions are compared in grams; the last binary digits of their sums are not to decide. */
const HAIR = 1e-9;

/**
 * The least change; among those within one division of it the fewest lines, then what is easiest to weigh, then the least after all.
 * `null` when there is none to pick from.
 */
export const pickOf = (programme: Programme, changes: readonly WholeChange[]): WholeChange | null => {
  const best = changes.reduce((least, { objective }) => Math.min(least, objective), Number.POSITIVE_INFINITY);
  const division = Math.max(0, ...programme.quantities.map(({ weighing }) => weighing.division ?? 0));
  return changes
    .filter(({ objective }) => objective <= best + division + HAIR)
    .reduce<WholeChange | null>((chosen, one) => (chosen === null || betterThan(programme, one, chosen) ? one : chosen), null);
};

const betterThan = (programme: Programme, one: WholeChange, other: WholeChange): boolean => {
  const fewer = countOf(one) - countOf(other);
  if (fewer !== 0) return fewer < 0;
  const easier = easeOf(programme, one) - easeOf(programme, other);
  if (Math.abs(easier) > HAIR) return easier > 0;
  return one.objective < other.objective - HAIR;
};
