import type { EntryId, LineId, LotId } from '#lib/units/id';

/** What of an ended batch can be put right: a weight, which lot it came from, a temperature of joining, or anything else in words. */
export const AMENDABLE = ['weight', 'lot', 'temperature', 'other'] as const;
export type Amendable = (typeof AMENDABLE)[number];

/**
 * A correction after the batch has ended: what stood there, what is right, and why. Nothing is erased, both show for ever. `was` and `is`
 * are whole milligrams of a weight, marks of a lot, thousandths of a degree (nothing where it was unknown), or a person's words.
 */
export interface Amended {
  readonly what: Amendable;
  /** The entry that stated it; `null` of temperatures and of what is told in words. */
  readonly entry: EntryId | null;
  readonly line: LineId | null;
  /** Which of the two temperatures; of the rest what it is about, in words. */
  readonly of: string;
  readonly was: string;
  readonly is: string;
  readonly why: string;
  /** The right lot. */
  readonly lot?: { readonly id: LotId; readonly mark: string };
}

/** A picture kept by its hash. `of`: what it shows, in words or as the bench asked for it. */
export interface PhotoKept {
  readonly sha256: string;
  readonly of: string;
  readonly caption: string;
}

/** Why a lot was weighed from that should not have been: somebody held to say so. */
export type LotDespite = 'quarantined' | 'expired' | 'used-up';
