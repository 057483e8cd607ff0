import type { InstrumentId, LineId, VesselId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import type { MilliCelsius } from '#lib/units/temperature';
import type { ScaleRole } from '#lib/measure/instrument';
import type { BatchState } from '../state';

/** A scale as a remedy has to reckon with it. `null`: nobody has said. */
export interface RemedyScale {
  readonly id: InstrumentId;
  readonly role: ScaleRole;
  readonly division: Milligrams | null;
  /** Greatest gross. */
  readonly capacity: Milligrams | null;
  /** Least weight it can serve, where somebody worked that out; else its division. */
  readonly smallest?: Milligrams;
}

/** What the bench knows beyond the batch. Plain data; whole numbers. */
export interface RemedyFacts {
  readonly scales: readonly RemedyScale[];
  /** What is left of each line's lot on the shelf, beyond what is in the batch. A line that is missing here: nobody has said. */
  readonly stock: Readonly<Record<LineId, Milligrams>>;
  /** `null`: not known now. */
  readonly oils: MilliCelsius | null;
  readonly lye: MilliCelsius | null;
  /** Lines of hard fat that a person said are melted or stirred in: nothing of them can be lifted out. */
  readonly stirredIn: readonly LineId[];
  /** Fat that a person said still lies in its jug though its line counts as poured. */
  readonly leftInJug: readonly { readonly line: LineId; readonly vessel: VesselId; readonly mass: Milligrams }[];
}

export const NO_FACTS: RemedyFacts = { scales: [], stock: {}, oils: null, lye: null, stirredIn: [], leftInJug: [] };

/**
 * What goes to the solver: the batch as it stands, with every wrong that was stated, and what the bench knows. Plain data, so that it
 * crosses to a worker. It needs no over-pour: a spill, another lot or a forgotten line is asked about the same way.
 */
export interface RemedyQuestion {
  readonly version: number;
  readonly state: BatchState;
  readonly facts: RemedyFacts;
}

/** @throws never: what cannot be answered is an answer of its own */
export const remedyQuestion = (state: BatchState, facts: RemedyFacts): RemedyQuestion => ({ version: state.version, state, facts });
