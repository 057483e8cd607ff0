import { acidTake } from '#lib/soap/acid';
import { alkaliSupply, pureMass } from '#lib/soap/alkali';
import { fatDemand } from '#lib/soap/fat-portion';
import { sumOf } from '#lib/soap/sum';
import { waterOf } from './density';
import type { Item } from './model';

/** What one gram of a line counts for. */
export interface PerGram {
  /** Moles of hydroxide its fats take, its acids take, its hydroxide gives. */
  readonly demand: number;
  readonly acid: number;
  readonly supply: number;
  /** Grams of pure hydroxide. */
  readonly pure: number;
  /** Grams of it that are of the lye: all but fat, where it goes into the jug; else 0. */
  readonly solution: number;
  /** Grams of water in the jug. */
  readonly water: number;
}

/** Whether it stands in the lye's jug before joining. */
export const inJug = ({ part, entry, inLye }: Item): boolean =>
  part === 'alkali' || inLye || (part === 'liquid' && (entry.goes === null || entry.goes === 'lye'));

export const perGramOf = (item: Item): PerGram => {
  const { makeup } = item.found;
  const jug = inJug(item);
  return {
    demand: fatDemand(makeup.fats),
    acid: acidTake(makeup.acids),
    supply: alkaliSupply(makeup.alkalis),
    pure: sumOf(makeup.alkalis, pureMass),
    solution: jug ? 1 - sumOf(makeup.fats, ({ mass }) => mass) : 0,
    water: jug ? waterOf(makeup) : 0,
  };
};
