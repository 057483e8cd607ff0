import type { Decimal } from './figure';

/** Received material. Receiving, following and recall belong to the record; here is what a plan needs of it. */
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
