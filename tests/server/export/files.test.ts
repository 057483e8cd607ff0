import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as z from 'zod';
import type { BatchPage } from '#lib/protocol/http';
import { canonical } from '#lib/record/canonical';
import type { Json } from '#lib/record/journal';
import { leafOf, linkOf } from '#lib/record/seal';
import { createTickets } from '#server/http/tickets';
import { batchSchemaText } from '#server/export/schema';
import { BATCHES } from '#tests/browser/support/paper-batches';
import { appRig } from '#tests/support/app-rig';
import type { AppRig } from '#tests/support/app-rig';
import { readCsv } from '#tests/support/csv';

const EVENTFUL = BATCHES.eventful();
/** A formula and a material as somebody might type them who means harm, or a mark that begins with a sign. */
const SPITEFUL = {
  formula: '=HYPERLINK("http://example.org","soap")',
  coconut: '+cmd|’ /C calc’!A1',
  shea: '@SUM(1+9)',
  olive: '-2+3, and a "quote"\r\nand a line',
  water: '\tDistilled',
};

/** The same batch under another id, its names replaced. */
const spiteful = () => {
  const text = JSON.stringify(EVENTFUL).replaceAll(`"${EVENTFUL[0]?.batch}"`, '"spite"').replaceAll('"id":"e-', '"id":"s-');
  const entries = JSON.parse(text) as typeof EVENTFUL;
  return entries.map((entry) => {
    const own = { ...entry, id: `spite-${entry.version}` } as typeof entry;
    if (own.kind !== 'batch-started') return own;
    const { plan } = own.body;
    const names: Readonly<Record<string, string>> = SPITEFUL;
    const lines = plan.lines.map((line) => ({ ...line, material: { ...line.material, name: names[line.id] ?? line.material.name } }));
    const started = { ...own.body, mark: '26-12', plan: { ...plan, formula: { ...plan.formula, name: SPITEFUL.formula }, lines } };
    return { ...own, body: started };
  });
};

describe('what goes out for other programs', () => {
  let rig: AppRig;
  const id = EVENTFUL[0]?.batch ?? '';
  beforeAll(async () => {
    rig = await appRig('real');
    await rig.enter(EVENTFUL);
    await rig.enter(BATCHES.eventful().map((entry) => ({ ...entry, batch: 'second', id: `second-${entry.version}` }) as typeof entry));
  });
  afterAll(() => rig.close());
  const pageOf = async (of: string): Promise<BatchPage> => (await (await rig.get(`/api/batches/${of}`)).json()) as BatchPage;
  const csvOf = async (of: string) => readCsv(await (await rig.get(`/api/export/batches/${of}/weights.csv`)).text());

  it('tells every weight in CSV, those crossed out among them, and they add up to what was weighed', async () => {
    const page = await pageOf(id);
    const [head = [], ...rows] = await csvOf(id);
    expect(rows).toHaveLength(page.lines.reduce((sum, { contributions }) => sum + contributions.length, 0));
    expect(new Set(rows.map((row) => row.length))).toEqual(new Set([head.length]));
    const cell = (row: readonly string[], name: string): string => row[head.indexOf(name)] ?? '';
    for (const line of page.lines) {
      const own = rows.filter((row) => cell(row, 'line') === line.line && cell(row, 'crossed out') === '');
      expect(Math.round(own.reduce((sum, row) => sum + 1000 * Number(cell(row, 'net g')), 0))).toBe(line.actual);
    }
    const crossed = rows.find((row) => cell(row, 'crossed out') === 'yes') ?? [];
    expect([cell(crossed, 'material'), cell(crossed, 'net g'), cell(crossed, 'at'), cell(crossed, 'why')]).toEqual([
      'Coconut oil',
      '290.4',
      '2026-04-14T13:04:45+02:00',
      'over-poured',
    ]);
  });

  it('gives a spreadsheet nothing to run', async () => {
    await rig.enter(spiteful());
    const [head = [], ...rows] = await csvOf('spite');
    const names = new Set(rows.map((row) => row[head.indexOf('material')] ?? ''));
    for (const name of [SPITEFUL.coconut, SPITEFUL.shea, SPITEFUL.olive, SPITEFUL.water]) expect(names).toContain(`'${name}`);
    expect(rows[0]?.[head.indexOf('formula')]).toBe(`'${SPITEFUL.formula}`);
    expect(rows.flat().filter((cell) => /^[=+@\t\r-]/.test(cell) && !/^-?\d+(\.\d+)?$/.test(cell))).toEqual([]);
  });

  it('is a file as its published schema says, with what seals every entry', async () => {
    const published = readFileSync('server/export/batch-record.schema.json', 'utf8');
    expect(JSON.parse(published)).toEqual(JSON.parse(batchSchemaText()));
    expect(await (await rig.get('/api/export/batch-record.schema.json')).json()).toEqual(JSON.parse(published));
    const schema = z.fromJSONSchema(JSON.parse(published) as z.core.JSONSchema.JSONSchema);
    const file = (await (await rig.get(`/api/export/batches/${id}/record.json`)).json()) as {
      review: { lines: { actual: unknown }[] };
      lines: { seq: number; leaf: string; link: string; entry: Json }[];
    };
    expect(schema.safeParse(file).error?.issues ?? []).toEqual([]);
    const { people, ...page } = await pageOf(id);
    expect(file).toMatchObject({ review: page, people });
    let before = '';
    for (const { leaf, link, entry } of file.lines) {
      expect(leafOf(canonical(entry))).toBe(leaf);
      if (before !== '') expect(linkOf(before, leaf)).toBe(link);
      before = link;
    }
    const [first] = file.review.lines;
    if (first !== undefined) first.actual = '280.9 g';
    expect(schema.safeParse(file).success).toBe(false);
  });

  it('is all in one archive, from which the record goes on elsewhere, and never the private key', async () => {
    const answer = await rig.get('/api/export/archive.zip');
    expect(answer.headers.get('content-disposition')).toMatch(/^attachment; filename="potwatch-real-\d{4}-\d\d-\d\d\.zip"$/);
    const files = unzipSync(new Uint8Array(await answer.arrayBuffer()));
    const text = (name: string): string => new TextDecoder().decode(files[name]);
    expect(Object.keys(files)).toEqual(
      expect.arrayContaining(['README.txt', 'batch-record.schema.json', 'batches.csv', 'weights.csv', 'proof/bench.key', 'real.sqlite']),
    );
    expect(
      readCsv(text('batches.csv'))
        .slice(1)
        .map(([mark]) => mark),
    ).toEqual(['26-12', '26-11', '26-11']);
    const json = Object.keys(files).filter((name) => name.startsWith('batches/'));
    expect(json).toHaveLength(3);
    for (const name of json) expect(JSON.parse(text(name))).toMatchObject({ format: 'potwatch batch record' });
    const pem = readFileSync(`${rig.dir}/real.key`, 'utf8');
    const secret = pem.split('\n').filter((line) => line !== '' && !line.startsWith('-----'));
    expect(secret.join('').length).toBeGreaterThan(60);
    const der = Buffer.from(secret.join(''), 'base64');
    for (const [name, bytes] of Object.entries(files)) {
      const whole = Buffer.from(bytes);
      // The last 32 bytes of its form are the key itself.
      for (const hidden of [...secret, der, der.subarray(-32)]) expect([name, whole.includes(hidden)]).toEqual([name, false]);
    }
    expect(Object.keys(files).filter((name) => /key/.test(name) && !name.startsWith('proof/'))).toEqual([]);
    expect(rig.backups.page().backups).toEqual([]);
  });

  it('an archive that is broken off leaves nothing behind, and its part is no archive', async () => {
    const answer = await rig.get('/api/export/archive.zip');
    const reader = answer.body?.getReader();
    const first = await reader?.read();
    await reader?.cancel();
    expect(() => unzipSync(first?.value ?? new Uint8Array())).toThrow(/invalid zip/);
    expect(readdirSync(join(rig.dir, 'backups'))).toEqual([]);
  });

  it('goes whole only to who may weigh, or by a ticket of theirs, once', async () => {
    const watcher = { headers: { 'x-watcher': '1' } };
    const status = async (path: string, method = 'GET'): Promise<number> => (await rig.app.request(path, { ...watcher, method })).status;
    expect(await status('/api/export/archive.zip')).toBe(403);
    expect(await status('/api/export/archive.zip?ticket=none')).toBe(403);
    expect([await status('/api/export/archive', 'POST'), await status('/api/export/backups', 'POST')]).toEqual([403, 403]);
    const { path } = (await (await rig.app.request('/api/export/archive', { method: 'POST' })).json()) as { path: string };
    const answer = await rig.app.request(path, watcher);
    expect([answer.status, Object.keys(unzipSync(new Uint8Array(await answer.arrayBuffer())))]).toEqual([
      200,
      expect.arrayContaining(['real.sqlite']),
    ]);
    expect(await status(path)).toBe(403);
    const clock = { at: 0 };
    const tickets = createTickets(() => clock.at);
    const late = tickets.give();
    clock.at = 60_001;
    expect(tickets.take(late)).toBe(false);
  });
});
