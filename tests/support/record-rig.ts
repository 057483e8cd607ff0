import { createHash } from 'node:crypto';
import type { BatchState, Entry, Realm } from '#lib/work/batch/index';
import { foldBatch } from '#server/bench/restore';
import { openStore } from '#server/store/open';
import { KeptLog, STILL } from './store-rig';

/** What a stopped server left on the disk, read by opening its record as the next server would. */
export const recordIn = async (
  dir: string,
  realm: Realm,
): Promise<{ readonly entries: readonly Entry[]; readonly batch: (id: string) => BatchState | null; readonly sound: boolean }> => {
  const store = await openStore({ dir, realm, clock: STILL, log: new KeptLog() });
  try {
    const entries = (await store.bench.lines(0, 100_000)).map((line) => JSON.parse(line.text) as Entry);
    const ids = new Set(entries.map((entry) => entry.batch));
    const folded = new Map<string, BatchState | null>();
    for (const id of ids) folded.set(id, await foldBatch(store.bench, id));
    const { ok } = await store.verify();
    return { entries, batch: (id) => folded.get(id) ?? null, sound: ok };
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
