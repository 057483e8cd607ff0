import { createHash } from 'node:crypto';
import type { Append } from '#lib/record/journal';

type Entry = Append['entries'][number];

/** An entry of a batch, as small as it may be. */
export const entryOf = (batch: string | null, version: number | null, more: Record<string, string | number> = {}): Entry => {
  const id = `${batch ?? 'none'}-${version ?? Object.values(more).join('-')}`;
  const labels = { id, kind: 'noted', ...(batch === null ? {} : { batch }), ...(version === null ? {} : { version }) };
  return { id, batch, version, kind: 'noted', value: { ...labels, ...more } };
};

export const appendOf = (entries: readonly Entry[], more: Partial<Append> = {}): Append => ({
  batch: entries[0]?.batch ?? null,
  entries,
  intent: null,
  blobs: [],
  ...more,
});

export const blobOf = (text: string): Append['blobs'][number] => {
  const bytes = new TextEncoder().encode(text);
  return { sha256: createHash('sha256').update(bytes).digest('hex'), kind: 'strip', bytes };
};
