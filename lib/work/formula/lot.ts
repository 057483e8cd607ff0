import type { Milligrams } from '#lib/units/mass';
import type { Decimal } from './figure';

/** A lot that may be weighed from, is set apart until somebody has looked, or is empty. */
export type LotUse = 'in-use' | 'quarantined' | 'used-up';

/** Received material. Keys that documents of an older program lack are optional. */
export interface Lot {
  readonly id: string;
  /** As written on the container: "CO 26-07". */
  readonly mark: string;
  /** Id of the material, or of the preparation it is a lot of. */
  readonly material: string;
  /** Overrides the catalogue for this lot; `null` without one. */
  readonly certificate: Certificate | null;
  /** Certificates and data sheets, by content. */
  readonly files: readonly FileRef[];
  /** Who delivered it, certificate or not. */
  readonly supplier?: string;
  /** When it came, and how much, mg: `amount` is left out when nobody weighed or read it. */
  readonly received?: { readonly day: string; readonly amount?: Milligrams };
  /** Money paid for all of it, as typed. */
  readonly paid?: string;
  /** Day it was opened. */
  readonly opened?: string;
  /** Last day it is to be used; left out: it has none. */
  readonly bestBefore?: string;
  /** Left out: in use. */
  readonly state?: LotUse;
  /** Why it is set apart. */
  readonly why?: string;
  /** Trade item number of its barcode, 14 digits. */
  readonly gtin?: string;
  /** What was put right by hand: more came, some was spilt or thrown away, a count found another amount. Signed mg. */
  readonly adjustments?: readonly { readonly day: string; readonly mass: Milligrams; readonly why: string }[];
}

export interface FileRef {
  /** 64 hex digits. */
  readonly sha256: string;
  readonly name: string;
  /** Media type: "application/pdf". */
  readonly type: string;
}

/** A figure of a certificate, with its standard uncertainty where the certificate states one. */
export interface Certified {
  readonly value: Decimal;
  readonly u?: Decimal;
}

/** What a supplier certifies of one lot, as typed. What it does not state stays as in the catalogue. */
export interface Certificate {
  /** "2026-02-03". */
  readonly date: string;
  readonly supplier: string;
  /** mg KOH/g. `sv` of a fat; `fatSv` of a milk's fat is typed on the material. */
  readonly sv?: Certified;
  /** The value of `sv` that a person confirmed although it lies outside the standard's range. Another value needs confirming again. */
  readonly svConfirmed?: Decimal;
  readonly acidValue?: Certified;
  /** % of pure hydroxide. */
  readonly purity?: Certified;
  /** % of acid in an acid sold in solution. */
  readonly strength?: Certified;
  /** g/cm³ at 20 °C. */
  readonly density?: Certified;
  /** Most of this fragrance in a finished rinse-off product, %. Nothing is shipped in its place. */
  readonly limit?: Decimal;
  /** % of vanillin. */
  readonly vanillin?: Decimal;
  /** Declarable allergens of a fragrance and their share of it, %. */
  readonly allergens?: readonly { readonly name: string; readonly percent: Decimal }[];
}
