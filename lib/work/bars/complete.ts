import type { Json } from '#lib/record/journal';
import { readBack } from '#lib/record/read-back';
import type { BarsDraft, BarsEntry, BarsHead } from './entries';

/** A draft with its head: the entry as it is stored and as every replay reads it. Throws `NotCanonical` as it does for batches. */
export const toEntry = (draft: BarsDraft, head: BarsHead): BarsEntry =>
  readBack({ ...head, kind: draft.kind, body: draft.body } as unknown as Json) as unknown as BarsEntry;
