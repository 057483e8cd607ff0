import type { AcidId } from '#lib/soap/acid';
import type { Hydroxide } from '#lib/soap/alkali';
import type { FatKind } from '#lib/soap/fat-portion';
import type { FattyAcid } from '#lib/soap/fatty-acid';
import type { OtherKind } from '#lib/soap/volume';
import type { Figure } from './figure';

/**
 * An entry of the catalogue, ours or the maker's own; the same document either way. JSON of strings and booleans, so that the workshop's
 * journal can hold it. A lot's certificate goes before all of it (`materialOfLot`).
 */
export type Material =
  FatMaterial | AlkaliMaterial | LiquidMaterial | AcidMaterial | AdditiveMaterial | FragranceMaterial | ColourantMaterial;

export type MaterialKind = Material['kind'];

interface Common {
  readonly id: string;
  /** As read aloud: "Coconut oil". */
  readonly name: string;
  readonly origin: 'catalogue' | 'maker';
  /** What a maker should know before trusting the figures; `null` for nothing. */
  readonly note: string | null;
  /** INCI name for labels, as typed; missing: nobody has typed one. */
  readonly inci?: string;
  /** Name as soap: "Sodium Olivate". */
  readonly saponifiedAs?: string;
}

/** g/cm³ at a temperature in °C, both as figures of one source. */
export interface DensityFigure extends Figure {
  readonly celsius: string;
}

/** A fat, butter or wax. */
export interface FatMaterial extends Common {
  readonly kind: 'fat' | 'wax';
  /** What its fatty part is to lye. */
  readonly bound: FatKind;
  /** mg KOH/g: the working value inside the range that the source states. */
  readonly sv: Figure;
  /** Why that working value. */
  readonly svReason: string;
  /** g I₂/100 g, a range; `null` where not known. */
  readonly iodine: Figure | null;
  /** % that takes no alkali (most allowed; for a wax what stays as alcohol). */
  readonly unsaponifiable: Figure | null;
  /** mg KOH/g. */
  readonly acidValue: Figure | null;
  /** % of total fatty acids, middle and range; empty where not known. */
  readonly fattyAcids: readonly { readonly acid: FattyAcid; readonly percent: Figure }[];
  /** Melted. */
  readonly density: DensityFigure;
  /** °C; `null` where liquid in any workshop. */
  readonly melting: Figure | null;
}

export interface AlkaliMaterial extends Common {
  readonly kind: 'alkali';
  readonly hydroxide: Hydroxide;
  /** A stock solution is weighed and poured like a liquid, and brings its own water. */
  readonly form: 'solid' | 'solution';
  /** % of pure hydroxide as bought. `null`: asked for before anything is computed, never assumed. */
  readonly purity: Figure | null;
  /** % of the rest that is water. */
  readonly restIsWater: Figure;
}

export interface LiquidMaterial extends Common {
  readonly kind: 'liquid';
  /** % by mass. */
  readonly water: Figure;
  readonly fat: Figure;
  readonly sugar: Figure;
  readonly acid: Figure;
  /** Which acid its acidity is counted as. */
  readonly acidAs: AcidId;
  /** mg KOH/g of its fat; `null` for a liquid without fat. */
  readonly fatSv: Figure | null;
  /** Milks and sugary liquids scorch: their own temperature limit. */
  readonly scorches: boolean;
}

export interface AcidMaterial extends Common {
  readonly kind: 'acid';
  readonly acid: AcidId;
  /** % of acid as bought. `null`: asked for. */
  readonly strength: Figure | null;
}

export interface AdditiveMaterial extends Common {
  readonly kind: 'additive';
  readonly density: Figure;
  /** What it is nearest to when no density of its own is known. */
  readonly like: OtherKind;
  /** Goes into the lye's liquid and counts in its mass (sugar, salt, sodium lactate). */
  readonly dissolves: boolean;
}

export interface FragranceMaterial extends Common {
  readonly kind: 'fragrance';
  readonly density: Figure;
  /** % of vanillin in it; `null` when nobody has typed one. No limit stands here: limits are of certificates only. */
  readonly vanillin: Figure | null;
}

export interface ColourantMaterial extends Common {
  readonly kind: 'colourant';
  readonly density: Figure;
}

/**
 * A lot made here: a masterbatch of fats, a stock lye, a colour dispersed in oil. It is weighed as one line and reckoned as what it is
 * made of. Parts may be preparations themselves; a preparation that holds itself is refused.
 */
export interface Preparation {
  readonly id: string;
  readonly name: string;
  readonly parts: readonly PreparationPart[];
  readonly note: string | null;
}

export interface PreparationPart {
  /** Id of a material or of a preparation. */
  readonly material: string;
  /** The lot it was made of, whose certificate counts; `null` when not noted. */
  readonly lot: string | null;
  /** % by mass of the preparation; all parts come to 100. */
  readonly percent: string;
}
