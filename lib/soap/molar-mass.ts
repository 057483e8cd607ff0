/**
 * IUPAC/CIAAW conventional atomic weights, g/mol, grade B (K: grade A; I: from memory). Other tables in use differ by up to 2.3e-5
 * relative for a fat: one is pinned here.
 */
const ATOMIC_WEIGHT = { H: 1.008, C: 12.011, N: 14.007, O: 15.999, Na: 22.98976928, K: 39.0983, I: 126.90447 } as const;

export type Element = keyof typeof ATOMIC_WEIGHT;
export type Formula = Readonly<Partial<Record<Element, number>>>;

/** Molar mass in g/mol of an elemental formula. @throws RangeError for an element not in the table or a count below zero. */
export const molarMass = (formula: Formula): number => {
  let sum = 0;
  for (const [element, count] of Object.entries(formula)) {
    if (!(element in ATOMIC_WEIGHT)) throw new RangeError(`no atomic weight for "${element}"`);
    if (!(count >= 0 && Number.isFinite(count))) throw new RangeError(`the count of ${element} must be zero or more`);
    sum += ATOMIC_WEIGHT[element as Element] * count;
  }
  return sum;
};

export const M_NAOH = molarMass({ Na: 1, O: 1, H: 1 });
export const M_KOH = molarMass({ K: 1, O: 1, H: 1 });
export const M_WATER = molarMass({ H: 2, O: 1 });
export const M_GLYCEROL = molarMass({ C: 3, H: 8, O: 3 });
export const M_IODINE = molarMass({ I: 2 });

/** Grams of NaOH that do the work of so many grams of KOH: the ratio of molar masses, 0.71289. */
export const naohForKoh = (koh: number): number => (koh * M_NAOH) / M_KOH;
