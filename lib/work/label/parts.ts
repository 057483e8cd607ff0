import type { Milligrams } from '#lib/units/mass';

/** What a material is to a label: colourants stand last, hydroxide is gone once it is bound, fats have a name as soap. */
export type LabelRole = 'fat' | 'alkali' | 'fragrance' | 'colourant' | 'formed' | 'other';

/** One material of a mould, as weighed, with the names its maker typed. */
export interface LabelPart {
  readonly material: string;
  /** As the workshop calls it; shown where no INCI name was typed. */
  readonly name: string;
  /** INCI name as typed in the material; `null`: nobody has typed one. */
  readonly inci: string | null;
  /** Of a fat as soap: "Sodium Olivate"; `null`: nobody has typed one. */
  readonly saponifiedAs: string | null;
  /** At the time it was added. */
  readonly mass: Milligrams;
  readonly role: LabelRole;
  /** Fraction of it that each declarable allergen is, by its certificate; names as typed there. */
  readonly allergens: Readonly<Record<string, number>>;
}

/** `as-added`: everything by its INCI name. `as-soap`: fats by their names as soap, and hydroxide that is all bound left out. */
export type Naming = 'as-added' | 'as-soap';
