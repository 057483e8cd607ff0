import { acidPortion, type AcidId, type AcidPortion } from './acid';
import { amount, fraction } from './check';
import type { FatPortion } from './fat-portion';
import type { Source } from './source';

/** What a liquid is made of, as mass fractions. What they leave (protein, minerals, fibre) is dissolved or stirred in and takes no alkali. */
export interface LiquidFractions {
  readonly water: number;
  readonly fat: number;
  readonly sugar: number;
  readonly acid: number;
}

export interface Liquid {
  readonly id: string;
  readonly name: string;
  readonly fractions: LiquidFractions;
  /** Which acid its acidity is counted as. */
  readonly acid: AcidId;
  /** Saponification value of its fat, mg KOH/g; `null` for a liquid without fat. */
  readonly fatSv: number | null;
  /** Scorches: hydroxide goes in cold and slowly, and the plan gives it its own temperature limit. */
  readonly scorches: boolean;
  readonly source: Source;
}

const memory = (text: string): Source => ({ text, grade: 'memory' });
const COMPOSITION = memory('food composition tables, typical');
/** Butterfat, as in the catalogue of fats. */
const MILK_FAT_SV = 226;

const liquid = (
  id: string,
  name: string,
  [water, fat, sugar, acid]: readonly [water: number, fat: number, sugar: number, acid: number],
  rest: Partial<Omit<Liquid, 'id' | 'name' | 'fractions'>> = {},
): Liquid => ({
  id,
  name,
  fractions: { water, fat, sugar, acid },
  acid: 'lactic',
  fatSv: null,
  scorches: sugar > 0 || fat > 0,
  source: COMPOSITION,
  ...rest,
});

const milk = { fatSv: MILK_FAT_SV } as const;

/** Liquids a maker dissolves hydroxide in; a maker's own goes beside them. */
export const LIQUIDS: readonly Liquid[] = [
  liquid('water', 'Distilled water', [1, 0, 0, 0], { source: { text: 'pure water', grade: 'computed' } }),
  liquid('cow-milk', 'Cow’s milk, whole', [0.877, 0.037, 0.047, 0.0015], milk),
  liquid('cow-milk-skimmed', 'Cow’s milk, skimmed', [0.908, 0.001, 0.05, 0.0015], milk),
  liquid('goat-milk', 'Goat’s milk', [0.87, 0.041, 0.045, 0.0015], { fatSv: 229 }),
  liquid('sheep-milk', 'Sheep’s milk', [0.807, 0.07, 0.054, 0.002], { fatSv: 229 }),
  liquid('donkey-milk', 'Donkey’s milk', [0.905, 0.008, 0.066, 0.001], milk),
  liquid('cream', 'Cream, 30 % fat', [0.63, 0.3, 0.033, 0.0012], milk),
  liquid('buttermilk', 'Buttermilk', [0.905, 0.006, 0.04, 0.008], milk),
  liquid('yoghurt', 'Yoghurt, plain whole', [0.879, 0.033, 0.036, 0.01], milk),
  liquid('whey', 'Whey, sweet', [0.932, 0.003, 0.048, 0.0015], milk),
  liquid('oat-drink', 'Oat drink', [0.905, 0.012, 0.04, 0], { fatSv: 190 }),
  liquid('rice-drink', 'Rice drink', [0.89, 0.01, 0.055, 0], { fatSv: 190 }),
  liquid('almond-drink', 'Almond drink, unsweetened', [0.965, 0.012, 0.002, 0], { fatSv: 191 }),
  liquid('soya-drink', 'Soya drink, unsweetened', [0.92, 0.019, 0.006, 0], { fatSv: 192 }),
  liquid('aloe-juice', 'Aloe leaf juice', [0.985, 0, 0.003, 0.002], { acid: 'malic', scorches: false }),
  liquid('beer', 'Beer, flat and boiled', [0.955, 0, 0.03, 0.002]),
  liquid('cider-vinegar', 'Vinegar, 5 %', [0.94, 0, 0.005, 0.05], { acid: 'acetic', scorches: false }),
  liquid('herb-tea', 'Herb tea', [0.997, 0, 0.001, 0], { scorches: false }),
  liquid('rose-water', 'Rose water', [0.999, 0, 0, 0], { scorches: false }),
  liquid('cucumber-juice', 'Cucumber juice', [0.96, 0.001, 0.017, 0.001], { acid: 'malic', fatSv: 190 }),
  liquid('carrot-juice', 'Carrot juice', [0.89, 0.001, 0.04, 0.001], { acid: 'malic', fatSv: 190 }),
  // Stirred in rather than dissolved in: dry milk by Codex CXS 207-1999 (whole: at least 26 % fat, at most 5 % water), from memory.
  liquid('milk-powder', 'Milk powder, whole', [0.03, 0.267, 0.384, 0.012], milk),
  liquid('milk-powder-skimmed', 'Milk powder, skimmed', [0.035, 0.008, 0.52, 0.015], milk),
  liquid('honey', 'Honey', [0.171, 0, 0.82, 0.003], { acid: 'malic' }),
  liquid('honey-water', 'Honey in water, one to nine', [0.9171, 0, 0.082, 0.0004], { acid: 'malic' }),
];

/** Liquid as weighed. */
export interface LiquidPortion {
  readonly mass: number;
  readonly fractions: LiquidFractions;
  readonly acid: AcidId;
  readonly fatSv: number | null;
}

/** A liquid taken apart into what each of the other computations needs. Masses in grams. */
export interface LiquidParts {
  readonly water: number;
  readonly sugar: number;
  readonly other: number;
  readonly fat: FatPortion | null;
  readonly acid: AcidPortion | null;
}

/** The fractions, checked. @throws RangeError when they do not fit together */
export const checkFractions = (fractions: LiquidFractions): LiquidFractions => {
  const { water, fat, sugar, acid } = fractions;
  for (const [part, value] of Object.entries({ water, fat, sugar, acid })) fraction(value, `the ${part} of a liquid`);
  // A maker's label may sum to a hair over one through rounding.
  if (water + fat + sugar + acid > 1 + 1e-9) throw new RangeError('the parts of a liquid come to more than the whole');
  return fractions;
};

export const partsOf = ({ mass, fractions, acid, fatSv }: LiquidPortion): LiquidParts => {
  amount(mass, 'a mass of liquid');
  const { water, fat, sugar, acid: sour } = checkFractions(fractions);
  if (fat > 0 && fatSv === null) throw new RangeError('the fat of a liquid needs a saponification value');
  return {
    water: mass * water,
    sugar: mass * sugar,
    other: mass * Math.max(0, 1 - water - fat - sugar - sour),
    fat: fat > 0 && fatSv !== null ? { mass: mass * fat, sv: fatSv } : null,
    acid: sour > 0 ? acidPortion(acid, mass * sour) : null,
  };
};
