import { unzipSync } from 'fflate';
import { createHash } from 'node:crypto';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import type { BatchListRow, BatchPage, HttpProblem } from '#lib/protocol/http';
import type { BarsList } from '#lib/protocol/bars';
import type { ComplaintAnswer, FollowBars, FollowLot, LotsUsed } from '#lib/protocol/lots';
import type { PeoplePage } from '#lib/protocol/people';
import type { ShelfList } from '#lib/protocol/shelf';
import { nextMark } from '#server/bench/mark';
import type { PhotoAnswer } from '#lib/protocol/afterwards';
import type { KeptFile } from '#server/store/shelf';
import { readCsv } from '#tests/support/csv';
import type { Store } from '#server/store/store';
import { servedRecord } from '#tests/support/served-record';

describe('following a lot', () => {
  const { at, get, post, intent } = servedRecord([
    { batch: 'b1', lines: 3, stripBytes: 64 },
    { batch: 'b2', lines: 2, struckLine: 1, stripBytes: 64 },
    // A mark that was given before.
    { batch: 'b3', lines: 1, mark: 'b2 mark', stripBytes: 64 },
  ]);

  it('what was weighed of each lot, crossed-out weights left out', async () => {
    // Lot 1 of the second batch was crossed out and typed again without a lot.
    expect((await get<LotsUsed>('/lots')).used).toEqual({ 'lot-0': 300_600, 'lot-1': 101_200, 'lot-2': 102_200 });
  });

  it('from a lot to batches, bars and who has them; from a bar’s mark back to lots and weights', async () => {
    await post('/shelf/lot/lot-0', {
      expected: 0,
      note: '',
      document: {
        id: 'lot-0',
        mark: '26-0',
        material: 'olive',
        certificate: null,
        files: [],
        supplier: 'The mill',
        bestBefore: '2027-01-31',
      },
    });
    const begun = { intent: intent(), batch: 'b1', moulds: [1], mould: { id: null, name: 'Loaf', cavities: 1 }, batter: 300_000 };
    expect((await post('/bars', begun)).status).toBe(200);
    const [bars] = (await get<BarsList>('/bars')).bars;
    const { people } = (await post<PeoplePage>('/people', { name: 'The corner shop', role: 'buyer' })).body;
    const shop = people.find(({ role }) => role === 'buyer')?.id ?? '';
    const want = async (said: object) =>
      expect(
        (await post(`/bars/lot?id=${encodeURIComponent(bars?.id ?? '')}`, { intent: intent(), expectedVersion: null, want: said })).status,
      ).toBe(200);
    const cut = {
      cutter: { id: null, name: 'wire', kind: 'fixed' },
      count: 10,
      ends: 2,
      testers: 1,
      thickness: null,
      log: null,
      mass: null,
    };
    await want({ kind: 'note-unmould', state: 'out', note: '', room: null });
    await want({ kind: 'cut', ...cut });
    await want({ kind: 'move', place: 'shelf 2' });
    await want({ kind: 'sell', count: 4, to: shop, at: null, from: 'shelf', note: '' });

    const followed = await get<FollowLot>('/follow/lot?id=lot-0');
    expect(followed).toMatchObject({ mark: '26-0', used: 300_600, lot: { supplier: 'The mill' } });
    expect(followed.batches.map(({ batch, mass }) => [batch.id, mass])).toEqual([
      ['b3', 100_200],
      ['b2', 100_200],
      ['b1', 100_200],
    ]);
    const sold = { kind: 'sold', count: 4, to: shop, name: 'The corner shop' };
    expect(followed.batches[2]?.bars).toMatchObject([
      { mark: 'b1 mark/1', made: 10, shelf: 6, retained: 1, place: 'shelf 2', gone: [sold] },
    ]);

    const back = await get<FollowBars>(`/follow/bars?mark=${encodeURIComponent('b1 mark/1')}`);
    expect(back).toMatchObject({ isUnknown: false, batches: [{ followed: { bars: [{ mark: 'b1 mark/1' }] } }] });
    expect(back.batches[0]?.lots.map(({ mark, mass, supplier }) => [mark, mass, supplier])).toEqual([
      ['26-0', 100_200, 'The mill'],
      ['26-1', 101_200, null],
      ['26-2', 102_200, null],
    ]);
    expect(back.batches[0]?.weights[0]).toEqual({ material: 'oil 0', actual: 100_200, lots: '26-0', byHand: false });
    const other = await get<FollowBars>(`/follow/bars?mark=${encodeURIComponent('b2 mark')}`);
    expect(other.batches.map(({ followed: { batch } }) => batch.id)).toEqual(['b3', 'b2']);
    expect(other.batches[1]?.unstated).toEqual([{ material: 'oil 1', mass: 101_200 }]);
    const none = await get<FollowBars>(`/follow/bars?mark=${encodeURIComponent('b1 mark/9')}`);
    expect(none).toMatchObject({ isUnknown: true, batches: [{ followed: { bars: [{ mark: 'b1 mark/1' }] } }] });
    // The name goes, the sale stays with its id.
    await post(`/people/${shop}/erase`, { erase: 'name' });
    expect((await get<FollowLot>('/follow/lot?id=lot-0')).batches[2]?.bars[0]?.gone[0]).toMatchObject({ to: shop, name: null });
    for (const none of ['/follow/lot?id=nobody', '/follow/bars?mark=99-1', '/follow/bars'])
      expect((await fetch(at(none))).status).toBe(404);
  });

  it('a lot that a record named until it was put right is told apart, and not counted', async () => {
    const page = await get<BatchPage>('/batches/b1');
    const entry = page.lines[2]?.contributions[0]?.entry ?? '';
    const want = { kind: 'amend-lot', entry, lot: 'lot-0', why: 'the jug beside it' };
    expect((await post('/batches/b1/afterwards', { intent: intent(), want })).status).toBe(200);
    const first = await get<FollowLot>('/follow/lot?id=lot-2');
    expect(first).toMatchObject({ mark: '26-2', used: 0, batches: [], once: [{ mass: 0, batch: { id: 'b1' } }] });
    expect((await get<FollowLot>('/follow/lot?id=lot-0')).once).toEqual([]);
  });

  it('a complaint holds what is left of that batch in one act, however often it is sent', async () => {
    const said = {
      intent: 'complain-1',
      mark: 'b1 mark/1',
      day: '2026-11-20',
      what: 'a rash',
      action: 'asked for a picture',
      reaction: 'serious',
    };
    expect((await post('/complaints', { ...said, day: '2026-02-30' })).status).toBe(400);
    expect((await post('/complaints', { ...said, mark: '99-1' })).status).toBe(404);
    expect((await post('/complaints', { ...said, what: ' ' })).status).toBe(400);
    const nine = { ...said, mark: 'b1 mark/9' };
    const asked = await post<HttpProblem>('/complaints', nine);
    expect(asked).toMatchObject({
      status: 422,
      body: { error: expect.stringContaining('b1 mark/9'), todo: expect.stringContaining('b1 mark/1') },
    });
    expect((await get<ShelfList>('/shelf/complaint')).items).toEqual([]);
    for (const _try of [1, 2])
      expect(await post<ComplaintAnswer>('/complaints', said)).toMatchObject({ status: 200, body: { held: ['b1 mark/1'] } });
    expect((await get<ShelfList>('/shelf/complaint')).items).toMatchObject([
      { version: 1, document: { batch: 'b1', held: ['b1 mark/1'] } },
    ]);
    // Nobody can read it better: all of that batch is held, and the record says that there are no such bars.
    expect(await post<ComplaintAnswer>('/complaints', { ...nine, intent: 'complain-9', anyway: true })).toMatchObject({ status: 200 });
    expect((await get<ShelfList>('/shelf/complaint')).items[0]?.document).not.toHaveProperty('isUnknown');
    expect((await get<ShelfList>('/shelf/complaint')).items[1]).toMatchObject({
      document: { mark: 'b1 mark/9', batch: 'b1', isUnknown: true, held: ['b1 mark/1'] },
    });
    const [bars] = (await get<BarsList>('/bars')).bars;
    expect(bars?.held).toBe('Complaint 2026-11-20');
    const sell = { kind: 'sell', count: 1, to: null, at: null, from: 'shelf', note: '' };
    // Of a batch without bars yet: those that are begun of it later are held from the first.
    const early = { ...said, intent: 'complain-2', mark: 'b2 mark', day: '2026-11-21' };
    expect(await post<ComplaintAnswer>('/complaints', early)).toMatchObject({ status: 200, body: { held: [] } });
    const begun = { intent: intent(), batch: 'b2', moulds: [1], mould: { id: null, name: 'Tray', cavities: 4 }, batter: 9_000 };
    expect((await post('/bars', begun)).status).toBe(200);
    const twin = { intent: intent(), batch: 'b3', moulds: [1], mould: { id: null, name: 'Tray', cavities: 4 }, batter: 9_000 };
    expect((await post('/bars', twin)).status).toBe(200);
    const why = (await get<BarsList>('/bars')).bars.map(({ held }) => held);
    expect(why).toEqual(['Complaint 2026-11-21', 'Complaint 2026-11-21', 'Complaint 2026-11-20']);
    const path = `/bars/lot?id=${encodeURIComponent(bars?.id ?? '')}`;
    expect((await post(path, { intent: intent(), expectedVersion: null, want: sell })).status).toBe(409);
  });

  it('all of it stands in the archive as tables, and pictures and papers as files', async () => {
    const picture = await sharp({ create: { width: 8, height: 8, channels: 3, background: '#a08060' } })
      .png()
      .toBuffer();
    const send = async <T>(path: string, type: string, body: string | Uint8Array<ArrayBuffer>) =>
      (await (await fetch(at(path), { method: 'POST', headers: { 'content-type': type }, body })).json()) as T;
    const { sha256 } = await send<PhotoAnswer>('/photos', 'image/png', Uint8Array.from(picture));
    const paper = await send<KeptFile>('/files?name=oil%20sheet.txt', 'text/plain', 'iodine 84');
    const bars = (await get<BarsList>('/bars')).bars.find(({ batch }) => batch === 'b1');
    const want = { kind: 'photo', sha256, note: 'a =red spot' };
    const asked = { intent: intent(), expectedVersion: null, want };
    expect((await post(`/bars/lot?id=${encodeURIComponent(bars?.id ?? '')}`, asked)).status).toBe(200);
    const order = { id: 'spring', kind: 'order', name: 'Spring', buyer: null, due: '2027-03-01', state: 'open', note: '' };
    const wants = [{ formula: 'hearth', bars: 6, label: null }];
    expect((await post('/shelf/order/spring', { expected: 0, note: '', document: { ...order, wants } })).status).toBe(200);

    const zip = unzipSync(new Uint8Array(await (await fetch(at('/export/archive.zip'))).arrayBuffer()));
    const text = (name: string): string => new TextDecoder().decode(zip[name]);
    const table = (name: string) => {
      const [head = [], ...rows] = readCsv(text(name));
      return rows.map((row) => Object.fromEntries(head.map((column, n) => [column, row[n]])));
    };
    expect(table('bars.csv')).toMatchObject([{ batch: 'b2 mark' }, { batch: 'b2 mark' }, { bars: 'b1 mark/1', made: '10', sold: '4' }]);
    // Its name was erased above, in the tables too.
    expect(table('sales.csv')).toMatchObject([{ bars: 'b1 mark/1', what: 'sold', count: '4', who: expect.not.stringContaining('shop') }]);
    expect(table('people.csv')).toContainEqual({ id: table('sales.csv')[0]?.['who'], role: 'buyer', name: '' });
    expect(table('lots.csv')).toMatchObject([{ lot: '26-0', material: 'Olive oil', supplier: 'The mill', 'used g': expect.any(String) }]);
    expect(table('orders.csv')).toMatchObject([{ order: 'Spring', formula: 'hearth', bars: '6' }]);
    expect(table('complaints.csv').map(({ mark, batches }) => [mark, batches])).toEqual([
      ['b1 mark/1', 'b1 mark'],
      ['b1 mark/9', 'b1 mark'],
      ['b2 mark', 'b2 mark b2 mark'],
    ]);
    expect(table('pictures.csv')).toMatchObject([{ of: 'b1 mark/1', note: 'a =red spot', file: `pictures/${sha256}.jpg` }]);
    const sumOf = (name: string) =>
      createHash('sha256')
        .update(zip[name] ?? '')
        .digest('hex');
    expect(sumOf(`pictures/${sha256}.jpg`)).toBe(sha256);
    expect(text(`files/${paper.sha256}-oil_sheet.txt`)).toBe('iodine 84');
  });
});

const rows = (marks: readonly string[]) => marks.map((mark) => ({ mark }) as BatchListRow);

it('a batch is never given a mark that stands on another, though the clock was set back', async () => {
  const given = ['26-1', '25-3', '25-2', '25-1'];
  const store = {
    batches: { list: async () => ({ batches: rows(given), next: null }) },
    lots: { marked: async (mark: string) => rows(given.filter((one) => one === mark)) },
  } as unknown as Store;
  expect(await nextMark(store, Date.UTC(2026, 5, 1))).toBe('26-2');
  expect(await nextMark(store, Date.UTC(2025, 5, 1))).toBe('25-4');
  expect(await nextMark(store, Date.UTC(2027, 5, 1))).toBe('27-1');
  // What was set aside of a batch has its number, and a letter.
  given.unshift('26-7b', '26-7');
  expect(await nextMark(store, Date.UTC(2026, 5, 1))).toBe('26-8');
});
