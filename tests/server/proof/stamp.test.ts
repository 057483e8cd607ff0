import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { readStamp, stampRequest } from '#lib/record/stamp/time-stamp';
import { LOOK_EVERY_MS, PROGRAM } from '#server/proof/keeper';
import { PARTS } from '#lib/record/bundle/layout';
import { hashOf } from '#server/store/sums';
import { keptRecord } from '#tests/support/proof-rig';
import type { Kept } from '#tests/support/proof-rig';
import { stampAuthority } from '#tests/support/stamp-authority';
import type { StampAuthority } from '#tests/support/stamp-authority';
import { storeRig } from '#tests/support/store-rig';
import type { Rig } from '#tests/support/store-rig';
import { toolWell } from '#tests/support/tools';

describe('time stamps (RFC 3161)', () => {
  let authority: StampAuthority;
  let rig: Rig;
  let kept: Kept;
  beforeAll(async () => {
    authority = await stampAuthority();
  });
  afterAll(() => authority.close());
  beforeEach(async () => {
    authority.answer('well');
    rig = storeRig();
    kept = await keptRecord(rig.options);
  });
  afterEach(async () => {
    await kept.close();
    rig.remove();
  });
  const stampOfNewest = () => {
    const head = kept.store.proof.newest('bench');
    const about = head?.note ?? '';
    const stamp = kept.store.proof.stampOf(hashOf(Buffer.from(about)));
    return { about, stamp };
  };

  it('asks as openssl would ask', () => {
    const request = stampRequest('ab'.repeat(32), '80ff00112233445566');
    writeFileSync(join(rig.dir, 'query'), request);
    const said = toolWell('openssl', ['ts', '-query', '-in', 'query', '-text'], { cwd: rig.dir });
    expect(said).toMatch(/Hash Algorithm: sha256/);
    expect(said).toContain('ab ab ab ab ab ab ab ab');
    expect(said).toMatch(/Nonce: 0x80FF00112233445566/);
    expect(said).toContain('Certificate required: yes');
  });

  it('asks nobody before a person said whom', async () => {
    await kept.make('a');
    await kept.keeper.idle();
    expect(stampOfNewest().stamp).toBeNull();
  });

  it('has the head of a closed batch stamped, keeps the answer, and openssl verifies it against the authority', async () => {
    await kept.store.proof.setStampUrl(authority.url, PROGRAM);
    await kept.make('a');
    expect(await kept.keeper.stamp()).toBeNull();
    const { about, stamp } = stampOfNewest();
    const token = await kept.store.blobs.get(stamp?.token ?? '');
    expect(stamp?.at).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$/);
    expect(authority.verify(token ?? new Uint8Array(), about)).toContain('Verification: OK');
    expect(authority.verify(token ?? new Uint8Array(), `${about} `)).toContain('Verification: FAILED');
    // It goes with the batch, for whoever has the authority's certificate.
    const parts = await kept.bundle('a');
    expect(authority.verify(parts.get(PARTS.stamp) ?? new Uint8Array(), parts.get(PARTS.after) ?? '')).toContain('Verification: OK');
    // The next start has it still.
    await kept.close();
    kept = await keptRecord(rig.options);
    expect(stampOfNewest().stamp).toEqual(stamp);
    expect(await kept.store.verify()).toMatchObject({ ok: true });
  });

  it.each([
    ['with an error', 'The authority answered with 503.'],
    ['with nonsense', 'What came back is no time stamp.'],
    ['about something else', 'What came back is the stamp of something else.'],
  ] as const)('keeps nothing when it is answered %s, and says so', async (how, why) => {
    await kept.store.proof.setStampUrl(authority.url, PROGRAM);
    await kept.make('a');
    await kept.keeper.stamp();
    await kept.make('b');
    authority.answer(how);
    expect(await kept.keeper.stamp()).toBe(why);
    expect(kept.keeper.trouble().stamping).toBe(why);
    expect(stampOfNewest().stamp).toBeNull();
    expect(kept.store.health().ok).toBe(true);
  });

  it('asks again within the hour', async () => {
    await kept.close();
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] });
    kept = await keptRecord(rig.options);
    await kept.store.proof.setStampUrl(authority.url, PROGRAM);
    authority.answer('with an error');
    await kept.make('a');
    await kept.keeper.stamp();
    expect(stampOfNewest().stamp).toBeNull();
    authority.answer('well');
    await vi.advanceTimersByTimeAsync(LOOK_EVERY_MS);
    await kept.keeper.idle();
    expect(stampOfNewest().stamp).not.toBeNull();
    expect(kept.keeper.trouble().stamping).toBeNull();
    vi.useRealTimers();
  });

  it('ends at once while an authority does not answer', { timeout: 5_000 }, async () => {
    await kept.make('a');
    await kept.store.proof.setStampUrl(authority.url, PROGRAM);
    authority.answer('never');
    const asked = authority.asked();
    const stamped = kept.keeper.stamp();
    await asked;
    await kept.keeper.stop();
    expect(await stamped).toMatch(/^The authority cannot be reached/);
    expect(kept.store.health().ok).toBe(true);
  });

  it('says when nobody answers', async () => {
    await kept.store.proof.setStampUrl('http://127.0.0.1:9/', PROGRAM);
    await kept.make('a');
    expect(await kept.keeper.stamp()).toMatch(/^The authority cannot be reached/);
  });

  it.each([
    ['nothing', ''],
    ['a length that is not there', '3082'],
    ['a length left open', '3080'],
    ['one that was refused', '30053003020102'],
  ])('reads no stamp from %s', (_, hex) => {
    expect(readStamp(new Uint8Array(Buffer.from(hex, 'hex')), 'ab'.repeat(32), '01')).toMatchObject({ ok: false });
  });
});
