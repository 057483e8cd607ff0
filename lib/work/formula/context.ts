import type { ScaleRole } from '#lib/measure/instrument';
import type { Milligrams } from '#lib/units/mass';
import type { VesselPlan } from '../batch/plan';
import type { Decimal } from './figure';
import type { Lot } from './lot';
import type { Material, Preparation } from './material';
import type { Mould } from './mould';

/** Everything of the workshop that a plan is computed from. Whoever calls gathers it; nothing here asks for more. */
export interface PlanContext {
  /** `CATALOGUE` and the maker's own. Of two with one id the later counts. */
  readonly materials: readonly Material[];
  readonly preparations: readonly Preparation[];
  readonly lots: readonly Lot[];
  readonly moulds: readonly Mould[];
  readonly scales: readonly Scale[];
  readonly vessels: readonly WorkshopVessel[];
  /** `null`: no time estimate. */
  readonly pace: Pace | null;
  /** °C of the workshop; `null`: 20 °C, said so. */
  readonly room: Decimal | null;
  readonly losses: Losses;
  /** Learnt from the maker's own batches; `null` before there are any. */
  readonly calibration: Calibration | null;
}

/** A scale as set up. */
export interface Scale {
  readonly id: string;
  readonly role: ScaleRole;
  readonly name: string;
  /** Gross; `null` when nobody has said. */
  readonly capacity: Milligrams | null;
  readonly division: Milligrams | null;
  /** Standard deviation of ten or more weighings of one weight, mg; `null`: never checked, 0.41 d stands in. */
  readonly repeatability: { readonly value: Decimal; readonly how: 'typed' | 'measured' } | null;
}

export interface WorkshopVessel extends Omit<VesselPlan, 'hottest'> {
  /** °C it may be used at; `null` when nobody has said. */
  readonly rating: Decimal | null;
}

/** How long this maker takes, in seconds; from their own batches, or typed. */
export interface Pace {
  readonly perLine: number;
  /** From the last oil weighed to all of it melted. */
  readonly melting: number;
  /** From hydroxide into the liquid to both in the window. */
  readonly meeting: number;
  /** From joining to the last mould. */
  readonly pouring: number;
  readonly how: 'typed' | 'measured';
}

/** What does not come out of the pot. `null`: nothing is taken off, and the plan says so. */
export interface Losses {
  /** Grams that stay in the pot and on the spatula, whatever the batch. */
  readonly residue: { readonly grams: Decimal; readonly how: 'typed' | 'measured' } | null;
  /** % of the batter lost in pouring. */
  readonly pour: { readonly percent: Decimal; readonly how: 'typed' | 'measured' } | null;
}

/** True volume over computed volume, by so many batches. */
export interface Calibration {
  readonly factor: Decimal;
  /** Standard uncertainty of the factor. */
  readonly u: Decimal;
  readonly batches: number;
  /** What each of them said. */
  readonly from?: readonly { readonly mark: string; readonly factor: Decimal }[];
}
