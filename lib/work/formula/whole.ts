import { scaled, together, type Makeup } from './makeup';
import type { Item, Model } from './model';
import { inJug } from './per-gram';

/** The batch as the chemistry takes it. */
export interface Whole {
  readonly all: Makeup;
  /** What stands in the lye's jug. */
  readonly jug: Makeup;
  /** Each item at its mass. */
  readonly each: readonly Makeup[];
  readonly grams: readonly number[];
  readonly fats: number;
  readonly batter: number;
}

export const wholeOf = ({ items }: Model, grams: readonly number[]): Whole => {
  const each = items.map(({ found }, at) => scaled(found.makeup, grams[at] ?? 0));
  const sum = (counts: (item: Item) => boolean): number =>
    items.reduce((total, item, at) => total + (counts(item) ? (grams[at] ?? 0) : 0), 0);
  return {
    all: together(each),
    jug: together(each.filter((_, at) => inJug(items[at] as Item))),
    each,
    grams,
    fats: sum(({ part }) => part === 'fat'),
    batter: sum(() => true),
  };
};
