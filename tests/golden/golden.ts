import type { JournalLine } from '#lib/record/journal';
import type { BatchState } from '#lib/work/batch/index';

/** A journal as it was written once, and what its batches folded to then. */
export interface Golden {
  readonly bench: readonly JournalLine[];
  readonly workshop: readonly JournalLine[];
  readonly batches: readonly { readonly id: string; readonly hash: string; readonly state: BatchState | null }[];
}

/** As much of a value as another one has: what was there then. Keys that came since are left out, everything else stays. */
export const asMuchAs = (now: unknown, then: unknown): unknown => {
  if (Array.isArray(now) && Array.isArray(then)) return now.map((one, at) => asMuchAs(one, then[at]));
  if (!isObject(now) || !isObject(then)) return now;
  return Object.fromEntries(Object.keys(then).flatMap((key) => (Object.hasOwn(now, key) ? [[key, asMuchAs(now[key], then[key])]] : [])));
};

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
