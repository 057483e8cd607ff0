import { acidTake } from '../acid';
import { alkaliSupply, pureMass } from '../alkali';
import { waterOf, type BatterParts } from '../batter';
import { fatDemand } from '../fat-portion';
import { sumOf } from '#lib/units/sum';

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

/** @param parts what one gram is; `inLye` whether it stands in the lye's jug before joining */
export const perGramOf = (parts: BatterParts, inLye: boolean): PerGram => ({
  demand: fatDemand(parts.fats),
  acid: acidTake(parts.acids),
  supply: alkaliSupply(parts.alkalis),
  pure: sumOf(parts.alkalis, pureMass),
  solution: inLye ? 1 - sumOf(parts.fats, ({ mass }) => mass) : 0,
  water: inLye ? waterOf(parts) : 0,
});
