import sharp from 'sharp';
import { afterAll, describe, expect, it } from 'vitest';
import type { PhotoAnswer } from '#lib/protocol/afterwards';
import type { Health } from '#lib/protocol/http';
import { openStore } from '#server/store/open';
import { freePort, serverProcess, tempFolder } from '#tests/support/server-rig';
import { KeptLog, STILL } from '#tests/support/store-rig';

/** A picture that is no other's, as large as a tablet sends. */
const picture = async (n: number): Promise<Uint8Array<ArrayBuffer>> => {
  const { data } = await sharp({
    create: {
      width: 1400,
      height: 1000,
      channels: 3,
      background: { r: n * 20, g: 90, b: 60 },
      noise: { type: 'gaussian', mean: 120, sigma: 30 },
    },
  })
    .jpeg()
    .toBuffer({ resolveWithObject: true });
  return new Uint8Array(data);
};

describe('a server that is killed while pictures come in', () => {
  const folder = tempFolder();
  afterAll(() => folder.remove());

  it('has every picture it said it kept, whole, and nothing of the others', async () => {
    const pictures = await Promise.all([1, 2, 3, 4, 5].map(picture));
    const kept: string[] = [];
    // Killed once before the first is done, once in the middle of several.
    for (const [at, after] of [30, 350].entries()) {
      const server = await serverProcess(['--port', String(await freePort()), '--data', folder.path, '--scale', 'practice']);
      const sending = pictures.map(async (body) => {
        const answer = await fetch(`http://127.0.0.1:${server.port}/api/photos`, { method: 'POST', body }).catch(() => null);
        const said = answer?.status === 200 ? ((await answer.json().catch(() => null)) as PhotoAnswer | null) : null;
        if (said !== null) kept.push(said.sha256);
      });
      // The moment of the kill is the matter itself.
      await new Promise((resolve) => setTimeout(resolve, after * (at + 1)));
      await server.end('SIGKILL');
      await Promise.all(sending);
    }
    const store = await openStore({ dir: folder.path, realm: 'practice', clock: STILL, log: new KeptLog() });
    expect(store.health() satisfies Pick<Health, 'ok'>).toMatchObject({ ok: true, readOnly: null });
    expect(await store.verify()).toMatchObject({ ok: true });
    for (const sha256 of kept) {
      expect(store.shelf.file(sha256)?.type).toBe('image/jpeg');
      const bytes = await store.blobs.get(sha256);
      expect((await sharp(bytes ?? new Uint8Array()).stats()).channels).toHaveLength(3);
    }
    // What a line names is there: a line without its bytes would be half a picture.
    const lines = (await store.workshop.lines(0, 500)).map(({ text }) => JSON.parse(text) as { kind: string; body: { sha256: string } });
    const named = lines.filter(({ kind }) => kind === 'file-kept').map(({ body }) => body.sha256);
    for (const sha256 of named) expect(await store.blobs.get(sha256)).not.toBeNull();
    expect(named).toEqual(expect.arrayContaining(kept));
    await store.close();
    // Sent again after all of it, each is kept.
    const server = await serverProcess(['--port', String(await freePort()), '--data', folder.path, '--scale', 'practice']);
    for (const body of pictures.slice(0, 2)) {
      const answer = await fetch(`http://127.0.0.1:${server.port}/api/photos`, { method: 'POST', body });
      expect(answer.status).toBe(200);
    }
    await server.end('SIGTERM');
  }, 120_000);
});
