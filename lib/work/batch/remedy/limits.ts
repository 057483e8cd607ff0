import type { LineId, VesselId } from '#lib/units/id';

/**
 * What a remedy must stay inside. `superfat-zero`: no more hydroxide than the fats take up, never loosened; `superfat-least` and the others
 * are the formula's. `lye-strongest` is the formula's, `lye-dissolves` what 100 g of water hold at all.
 */
export type RemedyLimit =
  | 'superfat-zero'
  | 'superfat-least'
  | 'superfat-most'
  | 'lye-weakest'
  | 'lye-strongest'
  | 'lye-dissolves'
  | 'share-least'
  | 'share-most'
  | 'fragrance'
  | 'alkali-split-least'
  | 'alkali-split-most'
  | 'moulds'
  | 'brim'
  | 'stock'
  | 'scale-capacity'
  | 'smallest-weight';

/** One limit that would be crossed. `by`: least that it would have to give way, in millionths (of a fraction) or mg, as `unit` says. */
export interface RemedyClash {
  readonly limit: RemedyLimit;
  readonly line: LineId | null;
  readonly vessel: VesselId | null;
  readonly by: number;
  readonly unit: 'ppm' | 'mg' | 'ml';
}
