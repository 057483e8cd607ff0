import type { LineId, VesselId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';

/** How much of one line is in a quantity of mixture. Frozen by `decide`, so that `evolve` only sums. */
export interface Share {
  readonly line: LineId;
  readonly mass: Milligrams;
}

/** Mass of one line standing in one vessel. */
export interface Standing extends Share {
  readonly vessel: VesselId;
}
