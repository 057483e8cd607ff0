import { isHard } from './fats/index';
import { fatHeatCapacity } from './heat/fat';
import { mixedCelsius } from './heat/mix';
import type { Source } from './source';
import { sumOf } from '#lib/units/sum';

/** A fat as far as its melting goes, °C; `null` where it is liquid in any workshop. */
interface Melts {
  readonly melting: { readonly low: number; readonly high: number } | null;
}

/** Some of a fat as a formula asks for it, grams. */
export interface FatAmount<F extends Melts = Melts> {
  readonly fat: F;
  readonly grams: number;
}

export interface MeltingPlan<F extends Melts = Melts> {
  /** Hard fats in the order they go in, the hardest first. */
  readonly order: readonly FatAmount<F>[];
  /** What they are heated to until clear, °C; `null` without a hard fat. */
  readonly heatTo: number | null;
  /** What the hard fats must be as the rest is poured in for the pot to be as warm as wished; `null` where that is too hot for them. */
  readonly pourAt: number | null;
  /** The pot after the rest, straight from `heatTo`. */
  readonly afterwards: number | null;
  /** Fats that may begin to set in it then. */
  readonly maySet: readonly F[];
  readonly source: Source;
}

/** K beyond the end of a fat's melting: common practice, no source. */
const CLEAR = 10;
/** Fats are not taken further than this over water: common practice, no source. */
const HOTTEST = 85;

const PRACTICE: Source = {
  text: 'hardest fats first, heated to 10 K past their melting until clear, liquid oils in off the heat, nothing above 85 °C',
  grade: 'practice',
};

const heat = ({ grams }: FatAmount, celsius: number): number => grams * fatHeatCapacity(celsius).value;

/** How to melt a batch's fats, with the liquid ones at the room's temperature poured in afterwards. */
export const meltingPlan = <F extends Melts>(fats: readonly FatAmount<F>[], room: number, wished: number): MeltingPlan<F> => {
  const hard = fats.filter(({ fat }) => isHard(fat));
  const order = hard.toSorted((a, b) => (b.fat.melting?.high ?? 0) - (a.fat.melting?.high ?? 0));
  const hardest = order[0]?.fat.melting?.high;
  if (hardest === undefined) return { order, heatTo: null, pourAt: null, afterwards: null, maySet: [], source: PRACTICE };
  const heatTo = Math.min(HOTTEST, Math.ceil(hardest + CLEAR));
  const melted = sumOf(hard, (one) => heat(one, heatTo));
  const rest = sumOf(
    fats.filter(({ fat }) => !isHard(fat)),
    (one) => heat(one, room),
  );
  const afterwards = mixedCelsius([
    { capacity: melted, celsius: heatTo },
    { capacity: rest, celsius: room },
  ]);
  const pourAt = wished + (rest / melted) * (wished - room);
  return {
    order,
    heatTo,
    pourAt: pourAt > HOTTEST ? null : Math.max(pourAt, hardest),
    afterwards,
    maySet: order.map(({ fat }) => fat).filter(({ melting }) => melting !== null && afterwards < melting.high),
    source: PRACTICE,
  };
};

/** A hard fat of less than this share is dissolved in the rest: ours. */
const COUNTS = 0.03;
/** A maker's own setting point is taken to be this exact, K: ours. */
const SAID = 4;

/** A fat may begin to set this warm where the maker has seen the blend set at `seen`, °C. */
export const setsNear = (seen: number): number => seen + SAID;

/** The same where a pot holds hard fats of which nothing more is known, °C: ours, no source. */
export const SETS_BELOW_UNSAID = 42;

/**
 * The warmest at which a fat in the pot may begin to set, °C: a little above where the maker has seen the blend set, else where the hardest
 * of its fats is melted through. In a blend a fat sets lower than alone, so this is where to begin to reckon with it. `null`: none does.
 */
export const setsBelow = (fats: readonly FatAmount[], seen: number | null): number | null => {
  if (seen !== null) return setsNear(seen);
  const all = sumOf(fats, ({ grams }) => grams);
  const high = fats.flatMap(({ fat, grams }) => (isHard(fat) && grams >= COUNTS * all ? [fat.melting?.high ?? 0] : []));
  return high.length === 0 ? null : Math.max(...high);
};
