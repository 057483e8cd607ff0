import * as z from 'zod/mini';
import type { Lot } from '#lib/work/formula/index';
import type { BatchListRow } from './http';

/** GET /api/lots: what batches have taken of each lot, mg. What is left is receipts and adjustments less this. */
export interface LotsUsed {
  readonly used: Readonly<Record<string, number>>;
  /** Every lot of a wrap, a box or a label that the workshop keeps or ever used. */
  readonly wraps: readonly WrapLotKnown[];
}

/** One lot of what goes around bars; `lot` `null`: pieces in none. */
export interface WrapLotKnown {
  readonly goods: string;
  readonly name: string;
  readonly lot: string | null;
}

/** GET /api/follow/wrap?goods=&lot=: from a lot of a wrap to the bars it is around, and who has them. */
export interface FollowWrap extends WrapLotKnown {
  /** Pieces of it that were used. */
  readonly pieces: number;
  /** Only bars of lots that were wrapped of it: which of a lot's bars bear it nobody wrote, so all of them are told. */
  readonly batches: readonly FollowedBatch[];
  /** Bars whose record named it until somebody crossed that out. */
  readonly once: readonly FollowedBatch[];
}

/** Bars of one batch, with where they are. */
export interface FollowedBars {
  readonly id: string;
  readonly mark: string;
  readonly made: number;
  readonly shelf: number;
  readonly away: number;
  /** Given back, and kept apart. */
  readonly aside: number;
  readonly held: string | null;
  /** Bars kept back, and where the lot stands; `null` where nobody said. */
  readonly retained: number;
  readonly place: string | null;
  /** What they were wrapped in, lot by lot. */
  readonly wraps: readonly (WrapLotKnown & { readonly pieces: number })[];
  readonly gone: readonly FollowedGone[];
  /** Who has how many of them now: what was given back is not among it. */
  readonly out: readonly FollowedGone[];
}

/** Bars that left; below zero: given back. `to`: whose id; a name only where it was not erased. `at`: the order or market, as it is called. */
export interface FollowedGone {
  readonly kind: 'sold' | 'given' | 'spoiled';
  readonly count: number;
  readonly wall: number;
  readonly offsetMin: number;
  readonly to: string | null;
  readonly name: string | null;
  readonly at: string | null;
}

export interface FollowedBatch {
  readonly batch: Pick<BatchListRow, 'id' | 'mark' | 'name' | 'realm' | 'status' | 'startedWall'>;
  /** mg of the lot that was asked about; 0 where the batch was asked for by its own mark. */
  readonly mass: number;
  readonly bars: readonly FollowedBars[];
}

/** GET /api/follow/lot?id=: from a lot to batches, bars and who has them. `lot` is `null` when the shelf does not know it (any more). */
export interface FollowLot {
  readonly id: string;
  readonly mark: string;
  readonly lot: Lot | null;
  readonly used: number;
  readonly batches: readonly FollowedBatch[];
  /** Batches whose record named it until somebody put it right: nothing of it is in them, as far as that is true. */
  readonly once: readonly FollowedBatch[];
}

/** What of one lot is in a batch, and what is known of it. */
export interface FollowedLot {
  readonly lot: string;
  readonly mark: string;
  readonly mass: number;
  readonly material: string;
  readonly supplier: string | null;
  readonly bestBefore: string | null;
  /** Some of it is a person's word, no scale's. */
  readonly byHand: boolean;
}

/** One batch, back to lots and weights. */
export interface FollowedBack {
  readonly followed: FollowedBatch;
  readonly lots: readonly FollowedLot[];
  /** Lines without a lot: weighed, and nobody said from what. */
  readonly unstated: readonly { readonly material: string; readonly mass: number }[];
  readonly weights: readonly { readonly material: string; readonly actual: number; readonly lots: string; readonly byHand: boolean }[];
}

/** GET /api/follow/bars?mark=: from the mark on a bar, or of a batch, back to whatever bears it: several where a mark was given twice. */
export interface FollowBars {
  readonly mark: string;
  /** No bars and no mould bear it, only a batch what stands before its stroke: all of that batch's bars are shown. */
  readonly isUnknown: boolean;
  /** Never empty. */
  readonly batches: readonly FollowedBack[];
}

const text = (most: number) => z.string().check(z.trim(), z.minLength(1), z.maxLength(most));

/** POST /api/complaints: kept, and all that is left of that batch is held, in one act. */
export const complaintAsk = z.object({
  intent: z.string().check(z.regex(/^[A-Za-z0-9_-]{8,30}$/)),
  mark: text(40),
  day: z.string().check(z.regex(/^\d{4}-\d{2}-\d{2}$/)),
  what: text(2000),
  action: z.string().check(z.maxLength(2000)),
  /** A reaction of somebody's body: may have to be reported. */
  reaction: z.enum(['none', 'slight', 'serious']),
  /** Said of a mark that no bars bear: the whole batch is meant. Without it such a mark is refused (422). */
  anyway: z.optional(z.boolean()),
});
export type ComplaintAsk = z.infer<typeof complaintAsk>;

export interface ComplaintAnswer {
  readonly id: string;
  /** Marks of the bar lots that are held now. */
  readonly held: readonly string[];
}
