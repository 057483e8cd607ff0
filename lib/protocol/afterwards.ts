import * as z from 'zod/mini';
import { MOST_WEIGHED } from '#lib/units/mass';

const words = (most: number) => z.string().check(z.trim(), z.minLength(1), z.maxLength(most));
const name = z.string().check(z.minLength(1), z.maxLength(80));
const why = words(500);
export const LONGEST_NOTE = 2000;

/** What a page says of any batch, ended or not. What stood there before, the record says itself. */
const wants = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('note'), text: words(LONGEST_NOTE), deviation: z.exactOptional(z.literal(true)) }),
  z.object({
    kind: z.literal('keep-photo'),
    sha256: z.string().check(z.regex(/^[0-9a-f]{64}$/)),
    of: z.string().check(z.maxLength(80)),
    caption: z.string().check(z.maxLength(300)),
  }),
  z.object({ kind: z.literal('amend-weight'), entry: name, is: z.int().check(z.gte(0), z.lte(MOST_WEIGHED)), why }),
  z.object({ kind: z.literal('amend-lot'), entry: name, lot: name, why }),
  z.object({ kind: z.literal('amend-temperature'), of: z.enum(['lye', 'oils']), is: z.int().check(z.gte(-60_000), z.lte(300_000)), why }),
  z.object({ kind: z.literal('amend-other'), of: words(120), was: z.string().check(z.maxLength(500)), is: words(500), why }),
]);

/** POST /api/batches/:id/afterwards. `intent`: made on the page, so that a try repeated is one. Answered as an intent is. */
export const afterwardsAsk = z.object({ intent: z.string().check(z.regex(/^[A-Za-z0-9_-]{8,40}$/)), want: wants });
export type AfterwardsWant = z.infer<typeof wants>;

/** POST /api/photos: the bytes of a picture. It is made smaller and kept without whatever the camera wrote into it. */
export const LARGEST_PHOTO = 15 * 1024 * 1024;
export interface PhotoAnswer {
  /** Where it is seen: /api/photos/:sha256. */
  readonly sha256: string;
  readonly bytes: number;
}
