import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ShelfDocument, ShelfList, WorkshopPage } from '#lib/protocol/shelf';
import { newId } from '#server/bench/system';
import type { RunningServer } from '#server/server';
import { optionsFor, serverHere, tempFolder } from '#tests/support/server-rig';

const LOAF = {
  id: 'long-loaf',
  name: 'Long loaf',
  shape: { kind: 'box', length: '250', width: '80', depth: '65' },
  lengthU: null,
};

const figure = (value: string, unit: string) => ({ value, unit, source: 'typed', grade: 'typed' });
const OIL = {
  id: 'grove',
  name: 'Grove oil',
  origin: 'maker',
  note: null,
  kind: 'fat',
  bound: 'triglyceride',
  sv: figure('0', 'mg KOH/g'),
  svReason: '',
  iodine: null,
  unsaponifiable: null,
  acidValue: null,
  fattyAcids: [],
  density: { ...figure('0.92', 'g/cm³'), celsius: '20' },
  melting: null,
};
const FLAKES = {
  id: 'flakes',
  name: 'Flakes',
  origin: 'maker',
  note: null,
  kind: 'alkali',
  hydroxide: 'NaOH',
  form: 'solid',
  purity: figure('130', '%'),
  restIsWater: figure('100', '%'),
};
const made = (id: string, ...parts: readonly (readonly [string, string])[]) => ({
  id,
  name: id,
  note: null,
  parts: parts.map(([material, percent]) => ({ material, lot: null, percent })),
});

const fill = (id: string) => ({
  id,
  mark: 'SO-0001',
  computed: { volume: '1500', grams: '1600' },
  residue: '10',
  pourLoss: '1',
  moulds: [{ mould: 'long-loaf', name: 'Long loaf', count: 1, brim: '1600', full: '95', grams: null }],
});

describe('the shelf over HTTP', () => {
  let folder: ReturnType<typeof tempFolder>;
  let server: RunningServer;
  beforeAll(async () => {
    folder = tempFolder();
    server = await serverHere(optionsFor(folder.path, { practice: true }));
  });
  afterAll(async () => {
    await server.stop();
    folder.remove();
  });
  const at = (path: string): string => `http://127.0.0.1:${server.port}${path}`;
  const get = async <T>(path: string): Promise<T> => (await fetch(at(path))).json() as Promise<T>;
  const post = async (path: string, body: unknown, type = 'application/json') => {
    const sent = body instanceof Uint8Array || typeof body === 'string' ? body : JSON.stringify(body);
    const response = await fetch(at(path), { method: 'POST', headers: { 'content-type': type }, body: sent as BodyInit });
    return { status: response.status, body: (await response.json()) as Record<string, unknown> };
  };
  const put = (noun: string, id: string, expected: number, document: unknown, note = '') =>
    post(`/api/shelf/${noun}/${id}`, { expected, document, note });

  it('keeps a document in versions, lists what stands, and puts away without losing', async () => {
    expect(await put('mould', 'long-loaf', 0, LOAF)).toEqual({ status: 200, body: { version: 1 } });
    const deeper = { ...LOAF, shape: { ...LOAF.shape, depth: '66' } };
    expect(await put('mould', 'long-loaf', 1, deeper, 'measured again')).toEqual({ status: 200, body: { version: 2 } });
    expect(await get<ShelfList>('/api/shelf/mould')).toMatchObject({
      noun: 'mould',
      items: [{ id: 'long-loaf', version: 2, document: deeper }],
    });
    const { context } = await get<WorkshopPage>('/api/workshop');
    expect(context.moulds).toEqual([deeper]);
    expect(context.scales.map(({ role }) => role)).toEqual(['main', 'fine']);
    expect(context.materials).toEqual([]);
    expect(await put('mould', 'long-loaf', 2, null)).toEqual({ status: 200, body: { version: 3 } });
    expect(await get<ShelfList>('/api/shelf/mould')).toMatchObject({ items: [] });
    // What was put away is listed as it last stood, and can be put again above the putting away.
    const { away } = await get<ShelfList>('/api/shelf/mould');
    expect(away).toMatchObject([{ id: 'long-loaf', version: 3, document: deeper }]);
    const { versions } = await get<ShelfDocument>('/api/shelf/mould/long-loaf');
    expect(versions.map(({ document, note }) => [document, note])).toEqual([
      [LOAF, ''],
      [deeper, 'measured again'],
      [null, ''],
    ]);
    expect(await put('mould', 'long-loaf', 3, deeper)).toEqual({ status: 200, body: { version: 4 } });
    expect((await get<ShelfList>('/api/shelf/mould')).away).toEqual([]);
    expect(await put('mould', 'long-loaf', 4, null)).toEqual({ status: 200, body: { version: 5 } });
  });

  it('tells a page that looked at an older version, and keeps the newer', async () => {
    await put('mould', 'tray', 0, { ...LOAF, id: 'tray' });
    await put('mould', 'tray', 1, { ...LOAF, id: 'tray', name: 'Tray' });
    const late = await put('mould', 'tray', 1, { ...LOAF, id: 'tray', name: 'lost' });
    expect(late).toMatchObject({
      status: 409,
      body: { error: expect.stringContaining('changed'), kept: expect.stringContaining('newest') },
    });
    expect(await get<ShelfList>('/api/shelf/mould')).toMatchObject({ items: [{ version: 2, document: { name: 'Tray' } }] });
  });

  it('names the field of a document that has the wrong shape, and keeps nothing of it', async () => {
    const cases: readonly (readonly [unknown, string])[] = [
      [{ ...LOAF, id: 'other' }, 'id'],
      [{ ...LOAF, name: 7 }, 'name'],
      [{ ...LOAF, name: '' }, 'name'],
      [{ ...LOAF, shape: { ...LOAF.shape, width: 8 } }, 'shape.width'],
      [{ ...LOAF, shape: { kind: 'sphere' } }, 'shape.kind'],
      [{ ...LOAF, extra: true }, ''],
      [[], ''],
    ];
    for (const [document, path] of cases) {
      const said = await put('mould', 'long-mould', 0, document);
      expect(said.status).toBe(422);
      expect(said.body).toMatchObject({
        fields: [{ path, says: expect.stringMatching(/\.$/) }],
        kept: expect.any(String),
        todo: expect.any(String),
      });
    }
    expect((await fetch(at('/api/shelf/mould/long-mould'))).status).toBe(404);
  });

  it('refuses what no plan could be computed from, beside the field, whoever sends it', async () => {
    const certificate = { date: '2026-02-03', supplier: 'Fellside Supplies', sv: { value: '-4' } };
    const flat = { ...LOAF, id: 'flat', shape: { kind: 'box', length: '0', width: '10', depth: '-5' } };
    expect((await put('preparation', 'inner', 0, made('inner', ['olive', '100']))).status).toBe(200);
    expect((await put('preparation', 'outer', 0, made('outer', ['inner', '100']))).status).toBe(200);
    const cases: readonly (readonly [string, { readonly id: string }, string, string])[] = [
      ['material', OIL, 'sv', 'not-above-zero'],
      ['material', FLAKES, 'purity', 'too-large'],
      ['mould', flat, 'shape.length', 'not-above-zero'],
      ['lot', { id: 'bad', mark: 'B 1', material: 'olive', certificate, files: [] } as never, 'certificate.sv', 'not-above-zero'],
      ['lot', { id: 'stray', mark: 'S 1', material: 'nowhere', certificate: null, files: [] } as never, 'material', 'unknown-material'],
      ['preparation', made('short', ['olive', '90']), 'parts', 'shares-sum'],
      ['preparation', made('lost', ['nowhere', '100']), 'parts.0.material', 'unknown-material'],
      ['preparation', made('inner', ['outer', '100']), '', 'cycle'],
    ];
    for (const [noun, document, path, code] of cases) {
      const said = await put(noun, document.id, document.id === 'inner' ? 1 : 0, document);
      expect(said.status, code).toBe(422);
      expect(said.body['fields'], code).toContainEqual(
        expect.objectContaining({ path, says: expect.stringMatching(/\.$/), problem: expect.objectContaining({ code }) }),
      );
    }
    // A lot of what was put away since is still put right.
    const inner = { id: 'of-inner', mark: 'I 1', material: 'inner', certificate: null, files: [] };
    expect((await put('lot', 'of-inner', 0, inner)).status).toBe(200);
    expect((await put('preparation', 'outer', 1, null)).status).toBe(200);
    expect((await put('preparation', 'inner', 1, null)).status).toBe(200);
    expect((await put('lot', 'of-inner', 1, { ...inner, state: 'used-up' })).status).toBe(200);
    expect(await get<ShelfList>('/api/shelf/material')).toMatchObject({ items: [] });
    expect(await get<ShelfDocument>('/api/shelf/preparation/inner')).toMatchObject({ versions: [{ version: 1 }, { version: 2 }] });
  });

  it('keeps what is said of a batch by the batch’s own id, whatever letters that has', async () => {
    for (const id of ['_aB-9zQ_0kLmN-xY', '-0', newId<string>()]) {
      expect(await put('fill', id, 0, fill(id))).toMatchObject({ status: 200, body: { version: 1 } });
    }
    const { context } = await get<WorkshopPage>('/api/workshop');
    expect(context.calibration?.batches).toBe(3);
  });

  it('refuses what is no request of ours', async () => {
    expect((await put('mould', 'NOT AN ID', 0, LOAF)).status).toBe(404);
    expect((await put('nonsense', 'long-loaf', 0, LOAF)).status).toBe(404);
    expect((await post('/api/shelf/mould/x', 'not json')).status).toBe(400);
    expect((await post('/api/shelf/mould/x', { expected: -1, document: LOAF, note: '' })).status).toBe(400);
    expect((await post('/api/shelf/mould/x', 'x'.repeat(300_000))).status).toBe(413);
    expect((await fetch(at('/api/shelf/constructor'))).status).toBe(404);
  });

  it('keeps a file by its hash, hands it out only to be saved, and refuses what it cannot keep', async () => {
    const bytes = new TextEncoder().encode('<script>alert(1)</script>');
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    expect(await post('/api/files?name=oil%20certificate.txt', bytes, 'text/plain')).toEqual({
      status: 200,
      body: { sha256, name: 'oil certificate.txt', type: 'text/plain', bytes: bytes.length },
    });
    const back = await fetch(at(`/api/files/${sha256}`));
    expect(new Uint8Array(await back.arrayBuffer())).toEqual(bytes);
    expect(back.headers.get('content-disposition')).toBe("attachment; filename*=UTF-8''oil%20certificate.txt");
    expect(back.headers.get('content-security-policy')).toContain('sandbox');
    expect((await post('/api/files?name=page.html', bytes, 'text/html')).status).toBe(415);
    expect((await post('/api/files?name=..%2Fup', bytes, 'text/plain')).status).toBe(400);
    expect((await post('/api/files', bytes, 'text/plain')).status).toBe(400);
    expect((await post('/api/files?name=a.txt', new Uint8Array(), 'text/plain')).status).toBe(400);
    expect((await fetch(at(`/api/files/${'0'.repeat(64)}`))).status).toBe(404);
    expect((await fetch(at('/api/files/..%2F..%2Fpackage.json'))).status).toBe(404);
  });
});

describe('a screen that only watches', () => {
  it('reads the shelf and changes nothing', async () => {
    const folder = tempFolder();
    const server = await serverHere(optionsFor(folder.path, { practice: true, host: '0.0.0.0' }));
    try {
      // Through a proxy on this machine: not from here, as far as anyone can tell.
      const headers = { 'content-type': 'application/json', 'x-forwarded-for': '192.0.2.7' };
      const asked = { method: 'POST', headers, body: JSON.stringify({ expected: 0, document: LOAF, note: '' }) };
      expect((await fetch(`http://127.0.0.1:${server.port}/api/shelf/mould/long-loaf`, asked)).status).toBe(403);
      expect(
        (
          await fetch(`http://127.0.0.1:${server.port}/api/files?name=a.txt`, {
            ...asked,
            headers: { ...headers, 'content-type': 'text/plain' },
          })
        ).status,
      ).toBe(403);
      expect((await fetch(`http://127.0.0.1:${server.port}/api/shelf/mould`, { headers })).status).toBe(200);
    } finally {
      await server.stop();
      folder.remove();
    }
  });
});
