import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import Database from 'better-sqlite3';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { HttpProblem } from '#lib/protocol/http';
import type { BatchProof, ProofPage, VerifyAnswer } from '#lib/protocol/proof';
import { checkBundle } from '#lib/record/bundle/check';
import { PARTS } from '#lib/record/bundle/layout';
import { readNote } from '#lib/record/note';
import type { JournalLine } from '#lib/record/journal';
import { ed25519 } from '#server/store/ed25519';
import { hashOf } from '#server/store/sums';
import { appRig } from '#tests/support/app-rig';
import type { AppRig } from '#tests/support/app-rig';
import { noteOn } from '#tests/support/proof-rig';
import { sampleBatch } from '#tests/support/sample-batch';

const SECRET = 'sold to Amalthea Brockwood, who has a rash';

const check = (parts: ReadonlyMap<string, Uint8Array>) => checkBundle(parts, { ed25519, sha256: hashOf }, { heads: [], key: null });
const lineOf = (lines: readonly JournalLine[], kind: string): JournalLine | undefined =>
  lines.find(({ text }) => text.includes(`"kind":"${kind}"`));

describe('what proves the record, over HTTP', () => {
  let rig: AppRig;
  beforeAll(async () => {
    rig = await appRig();
    for (const append of sampleBatch({ batch: 'one', realm: 'real', lines: 3, stripBytes: 300 })) await rig.store.bench.append(append);
    await rig.store.bench.append(noteOn(await rig.store.bench.linesOf('one'), SECRET));
    await rig.keeper.sign();
    for (const append of sampleBatch({ batch: 'open', realm: 'real', lines: 2, close: false })) await rig.store.bench.append(append);
  });
  afterAll(() => rig.close());
  const get = async <T>(path: string): Promise<T> => (await rig.get(path)).json() as Promise<T>;
  const post = async <T>(path: string, body: unknown): Promise<{ readonly status: number; readonly body: T }> => {
    const headers = { 'content-type': 'application/json' };
    const answer = await rig.app.request(path, { method: 'POST', headers, body: JSON.stringify(body) });
    return { status: answer.status, body: (await answer.json()) as T };
  };
  const bundleOf = async (batch: string): Promise<ReadonlyMap<string, Uint8Array>> => {
    const answer = await rig.get(`/api/proof/bundle/${batch}`);
    expect(answer.headers.get('content-disposition')).toContain('attachment');
    return new Map(Object.entries(unzipSync(new Uint8Array(await answer.arrayBuffer()))));
  };
  it('tells the newest head in words, its key, and what is asked of nobody', async () => {
    const page = await get<ProofPage>('/api/proof');
    expect(page).toMatchObject({ from: null, withdrawn: 0, stampUrl: null, readOnly: null, trouble: { signing: null, stamping: null } });
    expect(page.bench?.words.split(' ')).toHaveLength(8);
    expect(page.keys?.bench.startsWith(`${page.bench?.origin}+`)).toBe(true);
    const note = await (await rig.get('/api/proof/note')).text();
    expect(readNote(note)?.checkpoint).toMatchObject({ seq: page.bench?.seq, link: page.bench?.link });
    expect(await (await rig.get('/api/proof/code')).text()).toContain('<svg');
  });

  it('has no head yet of what is not signed, and signs it when its bundle is asked for', async () => {
    expect((await get<BatchProof>('/api/proof/batch/open')).head).toBeNull();
    expect((await rig.get('/api/proof/batch/open/note')).status).toBe(404);
    const parts = await bundleOf('open');
    expect(check(parts)).toMatchObject({ findings: [] });
    expect((await get<BatchProof>('/api/proof/batch/open')).head?.seq).toBe(rig.store.bench.seq());
  });

  it('hands out a bundle that checks, with a page to read that runs nothing', async () => {
    const parts = await bundleOf('one');
    expect(check(parts)).toMatchObject({ findings: [], entries: (await rig.store.bench.linesOf('one')).length });
    const page = Buffer.from(parts.get(PARTS.page) ?? []).toString();
    expect(page).toContain('Hearth bar');
    expect(page).toContain('100.2');
    expect(page).not.toMatch(/<script|<link|src=|href=|onload/i);
    expect(page).toContain('Amalthea Brockwood');
    expect((await rig.get('/api/proof/bundle/none')).status).toBe(404);
  });

  it('checks everything on demand', async () => {
    const lines = rig.store.bench.seq() + rig.store.workshop.seq();
    const { body } = await post<VerifyAnswer>('/api/proof/verify', {});
    expect(body).toMatchObject({ ok: true, findings: [], withdrawn: 0 });
    expect(body.lines).toBe(lines);
  });

  it('takes no address that is none, and asks nobody then', async () => {
    for (const url of ['nonsense', 'ftp://example.invalid/', 'javascript:alert(1)'])
      expect(await post<HttpProblem>('/api/proof/stamping', { url })).toMatchObject({ status: 422, body: { error: expect.any(String) } });
    expect((await get<ProofPage>('/api/proof')).stampUrl).toBeNull();
    const { body } = await post<ProofPage>('/api/proof/stamping', { url: 'http://127.0.0.1:9/' });
    expect(body).toMatchObject({ stampUrl: 'http://127.0.0.1:9/', trouble: { stamping: expect.stringContaining('cannot be reached') } });
    expect((await post<ProofPage>('/api/proof/stamping', { url: null })).body.stampUrl).toBeNull();
  });

  it('withdraws a note for good: its words are nowhere any more, everything else holds, and it says so', async () => {
    const before = await rig.store.bench.linesOf('one');
    const note = lineOf(before, 'noted');
    const version = (JSON.parse(note?.text ?? '') as { version: number }).version;
    expect((await post<HttpProblem>('/api/proof/batch/one/withdraw', { version, why: ' ' })).status).toBe(400);
    expect((await post<HttpProblem>('/api/proof/batch/one/withdraw', { version: 1, why: 'asked' })).status).toBe(404);
    expect((await post<HttpProblem>('/api/proof/batch/open/withdraw', { version: 1, why: 'asked' })).status).toBe(409);
    const { status, body } = await post<BatchProof>('/api/proof/batch/one/withdraw', { version, why: 'the customer asked for it' });
    expect([status, body.withdrawn]).toEqual([200, 1]);
    const after = await rig.store.bench.linesOf('one');
    expect(after.map(({ leaf, link }) => [leaf, link])).toEqual(before.map(({ leaf, link }) => [leaf, link]));
    expect(after.find(({ seq }) => seq === note?.seq)).toMatchObject({ withdrawn: true, text: expect.stringContaining('(withdrawn)') });
    expect((await post<VerifyAnswer>('/api/proof/verify', {})).body).toMatchObject({ ok: true, withdrawn: 1 });
    expect(check(await bundleOf('one'))).toMatchObject({ findings: [], withdrawn: 1 });
    expect(JSON.stringify(await get('/api/batches/one'))).not.toContain('Amalthea');
    for (const file of ['real.sqlite', 'real.sqlite-wal']) expect(readFileSync(join(rig.dir, file)).includes('Amalthea'), file).toBe(false);
    expect((await post<HttpProblem>('/api/proof/batch/one/withdraw', { version, why: 'again' })).status).toBe(404);
  });

  it('does not take a line that somebody emptied for one that was withdrawn', async () => {
    const lines = await rig.store.bench.linesOf('one');
    const db = new Database(join(rig.dir, 'real.sqlite'));
    const seq = lineOf(lines, 'vessel-lifted')?.seq ?? 0;
    db.prepare(`update bench_lines set text = '' where seq = ?`).run(seq);
    db.close();
    const { body } = await post<VerifyAnswer>('/api/proof/verify', {});
    expect(body).toMatchObject({
      ok: false,
      findings: [expect.stringContaining(`Line ${seq} of the batch journal was changed`), expect.anything()],
    });
    expect((await get<ProofPage>('/api/proof')).readOnly).toContain('npm run restore');
    const refused = await post<HttpProblem>('/api/proof/stamping', { url: 'http://127.0.0.1:9/' });
    // Nothing can be written; what is wrong in the record is an error of its own.
    expect(refused.status).toBe(503);
    expect((await rig.get('/api/proof/bundle/one')).status).toBe(500);
    expect((await rig.get('/api/proof/bundle/open')).status).toBe(200);
  });
});
