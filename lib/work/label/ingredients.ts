import { mg, type Milligrams } from '#lib/units/mass';
import type { Source } from '#lib/soap/source';
import type { AllergenShare } from '#lib/soap/fragrance';
import { nameKey } from './allergens';
import type { LabelPart, Naming } from './parts';

/** One name of the list. */
export interface Ingredient {
  readonly name: string;
  /** At the time it was added, of all materials that share the name. */
  readonly mass: Milligrams;
  /** Fraction of everything that was added. */
  readonly share: number;
  /** `main`: 1 % and more, in descending order. `minor`: below. `allergen`: named because of a certificate. `colourant`: last. */
  readonly group: 'main' | 'minor' | 'allergen' | 'colourant';
  /** Materials it stands for. */
  readonly materials: readonly string[];
}

export interface IngredientList {
  readonly items: readonly Ingredient[];
  /** Materials without the name that this naming needs: the list shows the workshop's own name until somebody types it. */
  readonly unnamed: readonly string[];
  /** Hydroxide left out because it is all bound. */
  readonly leftOut: readonly string[];
}

export const ORDER_SOURCE: Source = { text: 'Regulation (EC) No 1223/2009 Art. 19(1)(g); 21 CFR 701.3(a), (f)', grade: 'B' };

/** From this share on the order by weight is binding. */
const ONE_PERCENT = 0.01;

const nameOf = (part: LabelPart, naming: Naming): { readonly name: string; readonly typed: boolean } => {
  const typed = naming === 'as-soap' && part.role === 'fat' ? part.saponifiedAs : part.inci;
  const name = (typed ?? '').trim() === '' ? null : (typed ?? '').trim();
  return { name: name ?? part.name, typed: name !== null };
};

interface Gathered {
  name: string;
  mass: number;
  colourant: boolean;
  readonly materials: string[];
}

const byName = (parts: readonly LabelPart[], naming: Naming): readonly Gathered[] => {
  const all = new Map<string, Gathered>();
  for (const part of parts) {
    const { name } = nameOf(part, naming);
    const one = all.get(nameKey(name)) ?? { name, mass: 0, colourant: true, materials: [] };
    one.mass += part.mass;
    one.colourant &&= part.role === 'colourant';
    if (!one.materials.includes(part.material)) one.materials.push(part.material);
    all.set(nameKey(name), one);
  }
  return [...all.values()];
};

const RANK = { main: 0, minor: 1, allergen: 1, colourant: 2 } as const;

const inOrder = (a: Ingredient, b: Ingredient): number =>
  RANK[a.group] - RANK[b.group] || b.mass - a.mass || (a.name < b.name ? -1 : Number(a.name > b.name));

/**
 * The list of ingredients: descending by weight at the time they were added, those below 1 % after them (descending too, though any order
 * is allowed there), colourants last. Allergens at or over the rinse-off threshold are named in it.
 * @param finished all bars at their lightest, milligrams. @param bound the hydroxide is all bound: superfat is not below zero.
 * @param allergens as the bar that has most of each may have them.
 */
export const ingredientList = (
  parts: readonly LabelPart[],
  {
    naming,
    finished,
    bound,
    allergens,
  }: { readonly naming: Naming; readonly finished: Milligrams; readonly bound: boolean; readonly allergens: readonly AllergenShare[] },
): IngredientList => {
  const added = parts.filter(({ mass }) => mass > 0);
  const gone = naming === 'as-soap' && bound ? added.filter(({ role }) => role === 'alkali') : [];
  const shown = added.filter((part) => !gone.includes(part) && (naming === 'as-soap' || part.role !== 'formed'));
  const total = added.reduce((sum, { mass, role }) => (role === 'formed' ? sum : sum + mass), 0);
  const share = (mass: number): number => (total > 0 ? mass / total : 0);
  const named = byName(shown, naming);
  const items = named.map(({ name, mass, colourant, materials }): Ingredient => ({
    name,
    mass: mg(mass),
    share: share(mass),
    group: colourant ? 'colourant' : share(mass) >= ONE_PERCENT ? 'main' : 'minor',
    materials,
  }));
  const already = new Set(named.map(({ name }) => nameKey(name)));
  const declared = allergens.flatMap((one): readonly Ingredient[] => {
    const mass = mg(Math.round(one.share * finished));
    if (!one.declared || already.has(nameKey(one.name))) return [];
    return [{ name: one.name, mass, share: share(mass), group: share(mass) >= ONE_PERCENT ? 'main' : 'allergen', materials: [] }];
  });
  return {
    items: [...items, ...declared].toSorted(inOrder),
    unnamed: [...new Set(shown.filter((part) => !nameOf(part, naming).typed).map(({ material }) => material))],
    leftOut: [...new Set(gone.map(({ material }) => material))],
  };
};
