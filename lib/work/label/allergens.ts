import { allergensIn, type AllergenShare } from '#lib/soap/fragrance';
import type { Milligrams } from '#lib/units/mass';
import type { LabelPart } from './parts';

/** One name however it was typed: a certificate's capitals are not another substance. */
export const nameKey = (name: string): string => name.trim().replaceAll(/\s+/g, ' ').toLocaleLowerCase('en');

const spelled = (parts: readonly LabelPart[]): ReadonlyMap<string, string> =>
  new Map(parts.flatMap(({ allergens }) => Object.keys(allergens).map((name) => [nameKey(name), name.trim()] as const)).toReversed());

/**
 * Every allergen of the certificates in the finished bar, strongest first, and whether the label names it.
 * @param finished of all bars at their lightest, in milligrams: as a bar dries, what it holds grows stronger.
 */
const allergensOf = (parts: readonly LabelPart[], finished: Milligrams): readonly AllergenShare[] => {
  const shares = parts.map(({ name, mass, allergens }) => {
    const byKey: Record<string, number> = {};
    for (const [allergen, share] of Object.entries(allergens)) byKey[nameKey(allergen)] = (byKey[nameKey(allergen)] ?? 0) + share;
    return { name, mass: mass / 1000, limit: null, allergens: byKey };
  });
  return allergensIn(shares, finished / 1000);
};

/** What one bar may be of, with the mass it dries down to. */
export interface Finished {
  readonly parts: readonly LabelPart[];
  readonly finished: Milligrams;
}

/** Every allergen of the certificates with the highest share any of these has of it, strongest first, and whether the label names it. */
export const labelAllergens = (any: readonly Finished[]): readonly AllergenShare[] => {
  const names = spelled(any.flatMap(({ parts }) => parts));
  const highest = new Map<string, AllergenShare>();
  for (const { parts, finished } of any)
    for (const one of allergensOf(parts, finished))
      if (one.share > (highest.get(one.name)?.share ?? -1)) highest.set(one.name, { ...one, name: names.get(one.name) ?? one.name });
  return [...highest.values()].toSorted((a, b) => b.share - a.share || a.name.localeCompare(b.name));
};
