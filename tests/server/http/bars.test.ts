import { unzipSync } from 'fflate';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { BarsList, BarsMoulds, BarsPage } from '#lib/protocol/bars';
import type { BatchList, MouldsFor } from '#lib/protocol/http';
import type { IntentAnswer } from '#lib/protocol/intent';
import { checkBundle } from '#lib/record/bundle/check';
import { PARTS } from '#lib/record/bundle/layout';
import { systemClock } from '#server/bench/system';
import type { RunningServer } from '#server/server';
import { ed25519 } from '#server/store/ed25519';
import { openStore } from '#server/store/open';
import { hashOf } from '#server/store/sums';
import { formula } from '#tests/support/formula';
import { optionsFor, serverHere, tempFolder } from '#tests/support/server-rig';
import { sampleBatch } from '#tests/support/sample-batch';
import { KeptLog } from '#tests/support/store-rig';

let folder: ReturnType<typeof tempFolder>;
let server: RunningServer;
const openHere = () => openStore({ dir: folder.path, realm: 'practice', clock: systemClock, log: new KeptLog() });

beforeAll(async () => {
  folder = tempFolder();
  const store = await openHere();
  for (const append of sampleBatch({ batch: 'a', lines: 2 })) await store.bench.append(append);
  for (const append of sampleBatch({ batch: 'c', lines: 2 })) await store.bench.append(append);
  for (const append of sampleBatch({ batch: 'b', lines: 2 }).slice(0, 3)) await store.bench.append(append);
  await store.close();
  server = await serverHere(optionsFor(folder.path));
});
afterAll(async () => {
  await server.stop();
  folder.remove();
});

const at = (path: string): string => `http://127.0.0.1:${server.port}/api/${path}`;
const get = async <T>(path: string): Promise<T> => (await fetch(at(path))).json() as Promise<T>;
const post = async (path: string, body: object, headers: Record<string, string> = {}) => {
  const answer = await fetch(at(path), {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...headers },
    body: JSON.stringify(body),
  });
  return { status: answer.status, said: (await answer.json()) as IntentAnswer };
};
const LOT = 'bars:a/1';
const lot = `bars/lot?id=${encodeURIComponent(LOT)}`;
let made = 0;
const intent = (): string => `intent-${String((made += 1)).padStart(4, '0')}`;
const want = (kind: string, body: object = {}, expectedVersion: number | null = null) =>
  post(lot, { intent: intent(), expectedVersion, want: { kind, ...body } });

it('begins bars of a closed batch, once for each mould, and keeps the first answer for a retry', async () => {
  expect((await fetch(at('bars/moulds?batch=b'))).status).toBe(404);
  expect(await get<BarsMoulds>('bars/moulds?batch=a')).toMatchObject({ moulds: [{ n: 1, mould: { gives: 'log' } }], begun: [] });
  const begin = { intent: intent(), batch: 'a', moulds: [1], mould: { id: null, name: 'Short log', cavities: 1 } };
  expect((await post('bars', begin, { 'x-forwarded-for': '192.0.2.7' })).status).toBe(403);
  const first = await post('bars', begin);
  expect(first).toMatchObject({ status: 200, said: { ok: true, version: 1, repeated: false } });
  expect((await post('bars', begin)).said).toEqual({ ...first.said, repeated: true });
  expect(await post('bars', { ...begin, intent: intent() })).toMatchObject({ status: 409, said: { refusal: { code: 'already-done' } } });
  expect((await post('bars', { ...begin, intent: intent(), moulds: [7] })).status).toBe(404);
  expect(await get<BarsMoulds>('bars/moulds?batch=a')).toMatchObject({ moulds: [], begun: [{ id: LOT, mould: { name: 'Short log' } }] });
});

it('leads them to the shelf; batches see batches only, bars see bars only', async () => {
  await want('note-unmould', { state: 'out', note: '', room: null });
  const cut = {
    cutter: { id: null, name: 'Knife', kind: 'adjustable' },
    count: 10,
    ends: 0,
    testers: 0,
    thickness: null,
    log: null,
    mass: null,
  };
  expect((await want('cut', cut)).said).toMatchObject({ ok: true });
  expect(await want('move', { place: 'A2' }, 1)).toMatchObject({ status: 409, said: { refusal: { code: 'moved-on' } } });
  await want('sell', { count: 3, to: null, at: null, from: 'shelf', note: '' });
  expect((await want('weigh', { bar: 1 })).status).toBe(400);
  // What would name nothing is not entered.
  expect((await want('sell', { count: 1, to: 'nobody', at: null, from: 'shelf', note: '' })).status).toBe(404);
  expect((await want('photo', { sha256: 'a'.repeat(64), note: '' })).status).toBe(404);
  const page = await get<BarsPage>(lot);
  expect(page).toMatchObject({ row: { id: LOT, counts: { made: 10, shelf: 7, sold: 3 } }, record: { entries: 4 } });
  expect(page.story.map(({ code }) => code)).toEqual(['begun', 'unmould', 'cut', 'sold']);
  expect((await get<BarsList>('bars')).bars.map(({ id }) => id)).toEqual([LOT]);
  expect((await get<BatchList>('batches')).batches.map(({ id }) => id)).toEqual(['b', 'c', 'a']);
  expect((await fetch(at(`batches/${encodeURIComponent(LOT)}`))).status).toBe(404);
  expect((await fetch(at('bars/lot?id=a'))).status).toBe(404);
});

it('goes with the bundle of its batch, which checks', async () => {
  const zip = new Uint8Array(await (await fetch(at('proof/bundle/a'))).arrayBuffer());
  const parts = new Map(Object.entries(unzipSync(zip)));
  const report = checkBundle(parts, { ed25519, sha256: hashOf }, { heads: [], key: null });
  expect(report.findings).toEqual([]);
  expect(Buffer.from(parts.get(PARTS.entries) ?? []).toString()).toContain('"kind":"bars-sold"');
});

it('is listed alike after a restart, from lines alone, and no longer once the last bar is gone', async () => {
  const before = await get<BarsList>('bars');
  await server.stop();
  const store = await openHere();
  expect((await store.verify()).ok).toBe(true);
  expect(await store.bars.list({ before: null, limit: 5 })).toEqual(before);
  await store.rebuild();
  expect(await store.bars.open()).toEqual(before.bars);
  await store.close();
  server = await serverHere(optionsFor(folder.path));
  await want('spoil', { count: 7, to: null, at: null, from: 'shelf', note: 'mould' });
  expect((await get<BarsList>('bars/open')).bars).toEqual([]);
  expect((await get<BarsList>('bars')).bars).toMatchObject([{ id: LOT, counts: { shelf: 0, spoiled: 7 } }]);
});

it('takes no mould into two lots, whichever screen is first', async () => {
  const two = { kind: 'box', length: '150', width: '70', depth: '60' };
  await post('shelf/mould/short', { expected: 0, note: '', document: { id: 'short', name: 'Short', shape: two, lengthU: null } });
  // The sample batch is of this formula's third version.
  for (const expected of [0, 1, 2]) {
    const document = formula({ id: 'hearth', moulds: [{ mould: 'short', count: 2, fill: '95' }] });
    expect((await post('shelf/formula/hearth', { expected, note: '', document })).status).toBe(200);
  }
  const begin = (moulds: readonly number[]) => post('bars', { intent: intent(), batch: 'c', moulds });
  const [both, second] = await Promise.all([begin([1, 2]), begin([2])]);
  expect([both.status, second]).toMatchObject([200, { status: 409, said: { refusal: { code: 'already-done' } } }]);
  expect((await get<BarsMoulds>('bars/moulds?batch=c')).begun).toMatchObject([{ numbers: [1, 2] }]);
  // A batch that has none is offered it, with what stands in it; one whose batter is made is offered nothing.
  const mark = (await get<BarsList>('bars/open')).bars[0]?.mark;
  const { moulds } = await get<MouldsFor>('batches/b/moulds');
  expect(moulds.filter(({ id }) => id === 'short')).toEqual([{ id: 'short', name: 'Short', brimMl: 630, holds: [mark] }]);
  expect(moulds.at(-1)?.id).toBe('short');
  expect((await get<MouldsFor>('batches/a/moulds')).moulds).toEqual([]);
  expect((await fetch(at('batches/none/moulds'))).status).toBe(404);
  // Nothing came of them: they stand in no mould any more.
  const lost = { count: 0, ends: 0, testers: 0, thickness: null, log: null, mass: null, cutter: { id: null, name: '', kind: 'none' } };
  const said = { intent: intent(), expectedVersion: null, want: { kind: 'cut', ...lost } };
  expect((await post(`bars/lot?id=${encodeURIComponent('bars:c/1')}`, said)).said).toMatchObject({ ok: true });
  expect((await get<BarsList>('bars/open')).bars).toEqual([]);
});
