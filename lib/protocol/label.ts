import type { AllergenShare } from '#lib/soap/fragrance';
import type { Asked } from '#lib/work/label/checklist';
import type { Composition } from '#lib/work/label/composition';
import type { IngredientList } from '#lib/work/label/ingredients';
import type { LabelLayout } from '#lib/work/label/layout';
import type { NotAlike } from '#lib/work/label/mixtures';
import type { LabelSettings } from '#lib/work/label/settings';

/** A material of these bars and its names on their label. */
export interface LabelMaterial {
  readonly id: string;
  readonly name: string;
  readonly inci: string | null;
  readonly saponifiedAs: string | null;
  readonly fat: boolean;
  /** The name stands there from memory: nobody has typed it. */
  readonly proposed: boolean;
}

/** GET /api/labels?id=: the label of one bar lot, and everything it rests on. Masses in whole milligrams. */
export interface LabelPage {
  readonly id: string;
  readonly mark: string;
  readonly batch: string;
  readonly formula: string;
  /** The weight its label states; `null`: nobody has said. */
  readonly net: number | null;
  readonly settings: LabelSettings;
  /** Of the settings' document; 0 before the first. */
  readonly version: number;
  readonly from: Composition['from'];
  readonly bound: boolean | null;
  readonly materials: readonly LabelMaterial[];
  readonly list: IngredientList;
  /** Each with the highest share that any bar of the lot may have. */
  readonly allergens: readonly AllergenShare[];
  /** Why the bars of the lot need not be alike; empty: they are. */
  readonly notAlike: readonly NotAlike[];
  /** Ids of fragrances of which no certificate says what allergens they bring. */
  readonly silent: readonly string[];
  readonly eu: readonly Asked[];
  readonly us: readonly Asked[];
  readonly layout: Pick<LabelLayout, 'fits' | 'letters' | 'lettersForUs' | 'netLow'>;
  /** Where not everything has room: the least height that would do in this width, whole mm; `null`: none would. */
  readonly needs: number | null;
  /** Letters of it that the face of the PDF cannot draw: then there is no PDF. */
  readonly undrawn: readonly string[];
  /** Labels on a sheet of A4 and of US letter. */
  readonly onSheet: { readonly a4: number; readonly letter: number };
}
