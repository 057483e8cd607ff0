import { afterAll, beforeAll } from 'vitest';
import type { Options } from '#server/options';
import { openStore } from '#server/store/open';
import type { RunningServer } from '#server/server';
import { sampleBatch } from './sample-batch';
import { optionsFor, serverHere } from './server-rig';
import { storeRig } from './store-rig';

/**
 * A server in this process on a practice record of some sample batches, and how a test asks it as a page would. Begun before the tests of its
 * block and taken away after them. Paths begin behind `/api`.
 */
export const servedRecord = (batches: readonly Parameters<typeof sampleBatch>[0][], more: Partial<Options> = {}) => {
  const rig = storeRig();
  let server: RunningServer;
  let intents = 0;
  beforeAll(async () => {
    const store = await openStore(rig.options);
    for (const one of batches) for (const append of sampleBatch(one)) await store.bench.append(append);
    await store.close();
    server = await serverHere(optionsFor(rig.dir, more));
  });
  afterAll(async () => {
    await server.stop();
    rig.remove();
  });
  const at = (path: string): string => `http://127.0.0.1:${server.port}/api${path}`;
  return {
    rig,
    at,
    /** What a tablet is to open. */
    tabletAddress: (): string | null => server.tabletAddress(),
    get: async <T>(path: string): Promise<T> => (await (await fetch(at(path))).json()) as T,
    post: async <T>(path: string, body: object): Promise<{ readonly status: number; readonly body: T }> => {
      const answer = await fetch(at(path), {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(body),
      });
      return { status: answer.status, body: (await answer.json()) as T };
    },
    /** A name for an act that no act had before. */
    intent: (): string => `test-${String((intents += 1)).padStart(6, '0')}`,
  };
};
