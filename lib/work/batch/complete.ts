import type { Json } from '#lib/record/journal';
import { readBack } from '#lib/record/read-back';
import type { Draft, Entry, EntryHead } from './entries';

/**
 * A draft with its head: the entry as it is stored and as every replay reads it, so that what is folded now and what is folded later are
 * one, and frozen. Throws the record's `NotCanonical` when a number is not whole (monotonic time included) or a value has no RFC 8785 form of its
 * own, before anything is written.
 */
export const toEntry = (draft: Draft, head: EntryHead): Entry =>
  readBack({ ...head, kind: draft.kind, body: draft.body } as unknown as Json) as unknown as Entry;
