import type { EntryId, InstrumentId, LineId, PersonId } from '#lib/units/id';
import type { MassUnit, Milligrams } from '#lib/units/mass';
import type { MilliCelsius } from '#lib/units/temperature';
import type { AcceptedHow, HoldReason, StrikeReason, SuperfatThen, TemperatureCourse, TraceMark } from '../entries';
import type { MouldMade } from '../moulds';
import type { PhotoSubject } from '../pouring/types';
import type { Amended, PhotoKept } from '../later/types';
import type { LinePhase, MaterialClass, Plan } from '../plan';
import type { PouredResult } from '../poured/result';
import type { Unworked } from '../poured/types';
import type { Contribution, LineState } from '../state';
import type { BatchSummary } from '../summary';
import type { StoryEvent } from './story';

/** A batch as it was made, beside what was planned. What `GET /api/batches/:id` returns and the Review page draws. Whole numbers only. */
export interface BatchReview {
  readonly summary: BatchSummary;
  readonly bench: string;
  readonly version: number;
  readonly startedBy: PersonId;
  readonly formula: Plan['formula'];
  readonly lines: readonly ReviewLine[];
  /** In the order it happened. */
  readonly story: readonly StoryEvent[];
  readonly joining: ReviewJoining | null;
  /** What the plan asked of the two temperatures. */
  readonly limits: Plan['joining'];
  readonly trace: readonly {
    readonly mark: TraceMark;
    readonly batter: MilliCelsius | null;
    readonly wall: number;
    readonly note: string;
  }[];
  /** Scales that no known mass had ever been put on when the batch started. */
  readonly uncheckedScales: readonly InstrumentId[];
  readonly checks: readonly ReviewCheck[];
  readonly parts: readonly { readonly name: string; readonly mass: Milligrams; readonly byHand: boolean }[];
  /** Planned moulds, and those that portions went into, as they were poured. */
  readonly moulds: readonly MouldMade[];
  /** What stayed in the pot and in jugs, by their names. */
  readonly left: readonly { readonly of: string; readonly mass: Milligrams; readonly byHand: boolean }[];
  /** Photographs that were asked for while hands were gloved; `mark` of the mould, where it is of one. */
  readonly photos: readonly { readonly of: PhotoSubject; readonly mark: string | null; readonly wall: number }[];
  readonly poured: ReviewPoured;
  /** What was put right after the end, in order: what stood there and what is right both show for ever. */
  readonly amendments: readonly ReviewAmendment[];
  readonly pictures: readonly ReviewPicture[];
  /** What was ticked as clean before the first line; empty when nothing was. */
  readonly cleaned: readonly string[];
  /** What of each lot is in it. */
  readonly lots: BatchSummary['lots'];
  /** The batter as the plan computed it, `null` where it did not: what the moulds' filling is held against. */
  readonly sizing: ReviewSizing | null;
}

/** Decimal text: cm³ by its parts and without calibration, grams, what was taken off. */
export interface ReviewSizing {
  readonly volume: string;
  readonly grams: string;
  readonly residue: string;
  /** Fraction. */
  readonly pourLoss: string;
}

/** As poured; `kept` when the batch was closed, else worked out from what is weighed so far. */
export type ReviewPoured =
  | {
      readonly kind: 'figures';
      readonly kept: boolean;
      readonly toCome: readonly LineId[];
      readonly result: PouredResult;
      /** The same with every weight as it was put right; left out where none was, or nothing can be worked out from it. */
      readonly corrected?: PouredResult;
    }
  | { readonly kind: Unworked['kind']; readonly line: LineId | null };

export interface ReviewLine {
  readonly line: LineId;
  readonly material: string;
  readonly class: MaterialClass;
  readonly phase: LinePhase;
  readonly lot: string | null;
  /** As the batch started with it. */
  readonly planned: { readonly target: Milligrams; readonly tolerance: Milligrams };
  /** As it stands after replans. */
  readonly target: Milligrams;
  readonly tolerance: Milligrams;
  readonly moved: boolean;
  readonly actual: Milligrams;
  /** Actual − target. */
  readonly difference: Milligrams;
  /** The difference in thousandths of a tolerance: within is −1000 to 1000. */
  readonly away: number;
  readonly status: LineState['status'];
  readonly outcome: LineState['outcome'];
  readonly byHand: boolean;
  readonly contributions: readonly ReviewContribution[];
}

export interface ReviewContribution {
  readonly entry: EntryId;
  readonly kind: Contribution['kind'];
  /** Signed. */
  readonly net: Milligrams;
  readonly how: AcceptedHow;
  /** As the instrument, or the person, wrote it; `null` where a share of a mixture left. */
  readonly stated: { readonly text: string; readonly unit: MassUnit } | null;
  readonly instrument: InstrumentId | null;
  /** The scale had been checked against a known mass. */
  readonly checked: boolean;
  readonly lot: string | null;
  /** Mark of the lot it truly came of, where that was said later; `lot` stays as it was. */
  readonly rightLot: string | null;
  /** What it truly was, put right after the end; `net` stays as it was. */
  readonly amended: Milligrams | null;
  readonly by: PersonId;
  readonly wall: number;
  readonly offsetMin: number;
  /** Not yet confirmed by the lift. */
  readonly provisional: boolean;
  /** Crossed out: both values show for ever. */
  readonly struck: {
    readonly reason: StrikeReason;
    readonly note: string;
    readonly by: PersonId;
    readonly wall: number;
  } | null;
}

/** With who put it right, and when. */
export interface ReviewAmendment extends Amended {
  readonly by: PersonId;
  readonly wall: number;
  readonly offsetMin: number;
}

export interface ReviewPicture extends PhotoKept {
  readonly by: PersonId;
  readonly wall: number;
  readonly offsetMin: number;
}

export interface ReviewJoining {
  readonly lye: MilliCelsius | null;
  readonly oils: MilliCelsius | null;
  /** Thousandths of a kelvin. */
  readonly apart: number | null;
  readonly wall: number;
  readonly offsetMin: number;
  readonly byHand: readonly ('lye' | 'oils')[];
  /** The way both took until then; `null` in records that do not have it. */
  readonly course: TemperatureCourse | null;
  /** Seconds from when a meeting was foretold to when they truly met; `null`: they had not, or nothing was foretold. */
  readonly metAfter: number | null;
  readonly overrides: readonly {
    readonly reason: HoldReason;
    readonly value: number | null;
    readonly limit: number | null;
    readonly superfat: SuperfatThen | null;
  }[];
}

export interface ReviewCheck {
  readonly instrument: InstrumentId;
  readonly nominal: Milligrams;
  readonly shown: Milligrams;
  readonly difference: Milligrams;
  readonly wall: number;
}
