import { readdirSync } from 'node:fs';
import { setTimeout } from 'node:timers/promises';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { checkBundle } from '#lib/record/bundle/check';
import { ed25519 } from '#server/store/ed25519';
import { hashOf } from '#server/store/sums';
import { recordIn } from '#tests/support/record-rig';
import { sampleBatch } from '#tests/support/sample-batch';
import { keptRecord } from '#tests/support/proof-rig';
import { serverProcess } from '#tests/support/server-rig';
import { storeRig } from '#tests/support/store-rig';
import type { Rig } from '#tests/support/store-rig';

/** What a download ended as: a file that checks, or none. */
type Ended = 'whole' | 'broken off';

const download = async (port: number): Promise<Ended> => {
  let zip: Uint8Array;
  try {
    const answer = await fetch(`http://127.0.0.1:${port}/api/proof/bundle/large`);
    zip = new Uint8Array(await answer.arrayBuffer());
  } catch {
    return 'broken off';
  }
  // Whatever arrived as an answer is all of it.
  const parts = new Map(Object.entries(unzipSync(zip)));
  expect(checkBundle(parts, { ed25519, sha256: hashOf }, { heads: [], key: null }).findings).toEqual([]);
  return 'whole';
};

describe('kill -9 while a bundle is being made and sent', () => {
  let rig: Rig;
  beforeAll(async () => {
    rig = storeRig();
    const kept = await keptRecord(rig.options);
    for (const append of sampleBatch({ batch: 'large', lines: 30, stripBytes: 120_000 })) await kept.store.bench.append(append);
    await kept.close();
  });
  afterAll(() => rig.remove());

  it('leaves no part of one anywhere, and the record as it was', async () => {
    const server = await serverProcess(['--data', rig.dir, '--port', '0', '--scale', 'practice']);
    const files = readdirSync(rig.dir).toSorted();
    const downloads = [download(server.port), download(server.port)];
    await setTimeout(25);
    await server.end('SIGKILL');
    const ends = await Promise.all(downloads);
    expect(readdirSync(rig.dir).toSorted()).toEqual(files);
    expect(ends).toContain('broken off');
    const { sound, entries } = await recordIn(rig.dir, 'practice');
    expect(sound).toBe(true);
    expect(entries.filter(({ batch }) => batch === 'large')).toHaveLength(122);
  });
});
