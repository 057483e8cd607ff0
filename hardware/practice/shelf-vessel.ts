import type { VesselUse } from '#lib/work/batch/index';

/** A vessel as the plan and the record know it; masses in mg. */
export interface ShelfVessel {
  readonly id: string;
  readonly name: string;
  readonly use: VesselUse;
  /** `null`: nobody has weighed it empty. */
  readonly empty: number | null;
  /** What the record says is in it: how full a vessel is fetched that this scene has not seen yet, as after a restart. */
  readonly contents: number;
}
