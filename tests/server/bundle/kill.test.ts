import { randomBytes } from 'node:crypto';
import { once } from 'node:events';
import { readdirSync } from 'node:fs';
import { get } from 'node:http';
import type { IncomingMessage } from 'node:http';
import { buffer } from 'node:stream/consumers';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hashOf } from '#server/store/sums';
import { recordIn } from '#tests/support/record-rig';
import { keptRecord, noteOn } from '#tests/support/proof-rig';
import { serverProcess } from '#tests/support/server-rig';
import { storeRig } from '#tests/support/store-rig';
import type { Rig } from '#tests/support/store-rig';

/** More than the system holds for a reader that does not read. */
const LARGE = 12_000_000;

describe('kill -9 while a bundle is being made and sent', () => {
  let rig: Rig;
  let entries = 0;
  beforeAll(async () => {
    rig = storeRig();
    const kept = await keptRecord(rig.options);
    const { store } = kept;
    await kept.make('large');
    const bytes = new Uint8Array(randomBytes(LARGE));
    const sha256 = hashOf(bytes);
    await store.bench.append({ ...noteOn(await store.bench.linesOf('large'), sha256), blobs: [{ sha256, kind: 'picture', bytes }] });
    entries = store.bench.seq();
    await kept.close();
  });
  afterAll(() => rig.remove());

  it('leaves no part of one anywhere, and the record as it was', async () => {
    const server = await serverProcess(['--data', rig.dir, '--port', '0', '--scale', 'practice']);
    const files = readdirSync(rig.dir).toSorted();
    const ask = async (): Promise<IncomingMessage | null> => {
      const asked = get(`http://127.0.0.1:${server.port}/api/proof/bundle/large`);
      asked.on('error', () => undefined);
      const [answer] = (await once(asked, 'response').catch(() => [null])) as [IncomingMessage | null];
      answer?.on('error', () => undefined);
      return answer;
    };
    // It is made, and begun to be sent to somebody who does not read yet; another is being made meanwhile.
    const answer = await ask();
    if (answer === null) throw new Error('the server answered nothing');
    expect(Number(answer.headers['content-length'])).toBeGreaterThan(LARGE);
    const other = ask();
    await server.end('SIGKILL');
    await expect(buffer(answer)).rejects.toThrow();
    await other;
    expect(readdirSync(rig.dir).toSorted()).toEqual(files);
    const record = await recordIn(rig.dir, 'practice');
    expect(record.sound).toBe(true);
    expect(record.entries).toHaveLength(entries);
  });
});
