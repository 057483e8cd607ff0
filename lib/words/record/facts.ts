import type { RecordFoot } from '#lib/protocol/http';
import type { PrintedHead } from '#lib/record/printed';
import type { Display } from '#lib/units/display';
import type { InstrumentId, PersonId } from '#lib/units/id';
import type { BatchReview } from '#lib/work/batch/index';

/** Everything a printed record is made from: the batch by its entries, and what its ids are called. */
export interface RecordFacts {
  readonly review: BatchReview & { readonly record: RecordFoot };
  /** The head of the journal at the batch's newest line; `null` where nobody can say. */
  readonly head: PrintedHead | null;
  readonly display: Display;
  readonly instrumentName: (id: InstrumentId) => string;
  /** An erased name leaves the id. */
  readonly personName: (id: PersonId) => string;
  /** The newest check of a scale before the batch, by instrument. */
  readonly checkedBefore: Readonly<Record<string, EarlierCheck>>;
}

/** A check against one known mass in an earlier batch; masses in mg, wall time in ms with its offset. */
export interface EarlierCheck {
  readonly nominal: number;
  readonly difference: number;
  readonly wall: number;
  readonly offsetMin: number;
}
