import { above, amount, fraction, purity } from './check';
import type { Sourced } from './source';

/** A fragrance or essential oil in the finished bar. */
export interface FragrancePortion {
  readonly name: string;
  /** Grams. */
  readonly mass: number;
  /** Most the supplier's certificate allows in a finished rinse-off product, as a fraction; `null` when nobody has typed one. */
  readonly limit: number | null;
  /** Share of each declarable allergen in it, from the certificate. */
  readonly allergens?: Readonly<Record<string, number>>;
}

export type FragranceVerdict =
  /** `sum` is Σ cᵢ/Lᵢ; `most` how many times the blend could be taken. `within` is sufficient, not necessary: limits of different kinds add here as if alike. */
  | { readonly kind: 'within' | 'over'; readonly sum: number; readonly most: number }
  /** Without a limit there is no sum. */
  | { readonly kind: 'not-known'; readonly without: readonly string[] };

/**
 * Σ cᵢ/Lᵢ in the finished bar, at its *lowest* foreseeable mass: as the bar dries, what it holds grows stronger.
 * @param barMass grams of all bars of the batch at that mass.
 */
export const fragranceLoad = (blend: readonly FragrancePortion[], barMass: number): FragranceVerdict => {
  above(barMass, 'the mass of the bars');
  const used = blend.filter(({ mass, name }) => amount(mass, `the mass of ${name}`) > 0);
  const without = used.filter(({ limit }) => limit === null).map(({ name }) => name);
  if (without.length > 0) return { kind: 'not-known', without };
  const sum = used.reduce((total, { mass, limit, name }) => total + mass / barMass / purity(limit ?? 0, `the limit of ${name}`), 0);
  return { kind: sum <= 1 ? 'within' : 'over', sum, most: sum === 0 ? Number.POSITIVE_INFINITY : 1 / sum };
};

/** What exceeds this is declared on a rinse-off product: 0.01 %, as a fraction. What is at it is named here too: no doubt of a mass decides. */
const RINSE_OFF: Sourced = {
  value: 0.0001,
  source: { text: 'Regulation (EU) 2023/1545, amending Annex III of (EC) 1223/2009', grade: 'A' },
};

export interface AllergenShare {
  readonly name: string;
  /** Fraction of the finished bar. */
  readonly share: number;
  readonly declared: boolean;
}

/** Every allergen of the blend in the finished bar, strongest first, and whether the label must name it. */
export const allergensIn = (blend: readonly FragrancePortion[], barMass: number): readonly AllergenShare[] => {
  above(barMass, 'the mass of the bars');
  const shares = new Map<string, number>();
  for (const { mass, name, allergens = {} } of blend) {
    for (const [allergen, part] of Object.entries(allergens)) {
      const grams = amount(mass, `the mass of ${name}`) * fraction(part, `the share of ${allergen} in ${name}`);
      shares.set(allergen, (shares.get(allergen) ?? 0) + grams / barMass);
    }
  }
  return [...shares]
    .map(([name, share]) => ({ name, share, declared: share >= RINSE_OFF.value * (1 - 1e-9) }))
    .toSorted((a, b) => b.share - a.share || a.name.localeCompare(b.name));
};

/** Where the declaration threshold comes from. */
export const allergenThreshold = (): Sourced => RINSE_OFF;
