import { createHash } from 'node:crypto';
import { fold } from '#lib/work/batch/index';
import type { BatchState, Entry, Realm } from '#lib/work/batch/index';
import { openStore } from '#server/store/open';
import { KeptLog, STILL } from './store-rig';

export interface KeptRecord {
  readonly entries: readonly Entry[];
  /** One batch as it stood at a version: a screen may have ended before the newest entries reached it. */
  at(seen: BatchState | null): BatchState | null;
  /** Chain, answers, blobs and derived rows all hold. */
  readonly sound: boolean;
}

/** What a stopped server left on the disk, read by opening its record as the next server would. */
export const recordIn = async (dir: string, realm: Realm): Promise<KeptRecord> => {
  const store = await openStore({ dir, realm, clock: STILL, log: new KeptLog() });
  try {
    const entries = (await store.bench.lines(0, 100_000)).map((line) => JSON.parse(line.text) as Entry);
    const { ok } = await store.verify();
    return {
      entries,
      at: (seen) => fold(entries.filter((entry) => entry.batch === seen?.id && entry.version <= seen.version)),
      sound: ok,
    };
  } finally {
    await store.close();
  }
};

/** One hash over a whole state: two that are equal fold the same entries to the same end. */
export const stateHash = (state: BatchState | null): string => createHash('sha256').update(sorted(state)).digest('hex');

const sorted = (value: unknown): string =>
  JSON.stringify(value, (_key, inner: unknown) =>
    typeof inner === 'object' && inner !== null && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).toSorted(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  );
