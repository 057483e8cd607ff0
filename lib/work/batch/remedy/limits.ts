import type { LimitName } from '#lib/soap/remedy/limits';
import type { LineId, VesselId } from '#lib/units/id';

/** What the programme keeps, and two that bound a line by itself. */
export type RemedyLimit = LimitName | 'stock' | 'smallest-weight';

/** One limit that would be crossed. `by`: least that it would have to give way, in millionths (of a fraction) or mg, as `unit` says. */
export interface RemedyClash {
  readonly limit: RemedyLimit;
  readonly line: LineId | null;
  readonly vessel: VesselId | null;
  readonly by: number;
  readonly unit: 'ppm' | 'mg' | 'ml';
}
