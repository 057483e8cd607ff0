import * as z from 'zod/mini';
import type { ComplaintAnswer, ComplaintAsk, FollowBars, FollowLot, FollowWrap, LotsUsed } from '#lib/protocol/lots';
import type { IntentAnswer } from '#lib/protocol/intent';
import { ask } from '../../_ui/api';
import type { Answer } from '../../_ui/api';

const batch = z.looseObject({
  batch: z.looseObject({ id: z.string(), mark: z.string(), name: z.string() }),
  mass: z.number(),
  bars: z.array(z.looseObject({ id: z.string(), mark: z.string(), gone: z.array(z.looseObject({ count: z.int() })) })),
});
/** The outline of each answer, as in `api`. */
const OUTLINES = {
  used: z.looseObject({ used: z.record(z.string(), z.number()), wraps: z.array(z.looseObject({ goods: z.string(), name: z.string() })) }),
  wrap: z.looseObject({ name: z.string(), pieces: z.number(), batches: z.array(batch), once: z.array(batch) }),
  lot: z.looseObject({ id: z.string(), mark: z.string(), used: z.number(), batches: z.array(batch), once: z.array(batch) }),
  bars: z.looseObject({
    mark: z.string(),
    isUnknown: z.boolean(),
    batches: z.array(z.looseObject({ followed: batch, lots: z.array(z.looseObject({})), weights: z.array(z.looseObject({})) })),
  }),
  held: z.looseObject({ ok: z.boolean() }),
  complaint: z.looseObject({ id: z.string(), held: z.array(z.string()) }),
};

/** Where lots went, where bars came from, and what was said of them. Nothing throws. */
export const followApi = {
  used: (): Promise<Answer<LotsUsed>> => ask(OUTLINES.used, '/api/lots'),
  lot: (id: string): Promise<Answer<FollowLot>> => ask(OUTLINES.lot, `/api/follow/lot?id=${encodeURIComponent(id)}`),
  /** `lot` `null`: pieces in none. */
  wrap: ({ goods, lot }: { readonly goods: string; readonly lot: string | null }): Promise<Answer<FollowWrap>> =>
    ask(OUTLINES.wrap, `/api/follow/wrap?goods=${encodeURIComponent(goods)}${lot === null ? '' : `&lot=${encodeURIComponent(lot)}`}`),
  bars: (mark: string): Promise<Answer<FollowBars>> => ask(OUTLINES.bars, `/api/follow/bars?mark=${encodeURIComponent(mark)}`),
  /** Bars that may not be sold until they are released. */
  hold: (bars: string, intent: string, reason: string): Promise<Answer<IntentAnswer>> =>
    ask(OUTLINES.held, `/api/bars/lot?id=${encodeURIComponent(bars)}`, {
      intent,
      expectedVersion: null,
      want: { kind: 'hold', reason },
    }),
  complain: (said: ComplaintAsk): Promise<Answer<ComplaintAnswer>> => ask(OUTLINES.complaint, '/api/complaints', said),
} as const;
