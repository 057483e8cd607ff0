import { describe, expect, it } from 'vitest';
import { as } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import { awayFor, forOrders, hadBy } from '#lib/work/bars/handed';
import { fold, summaryOf } from '#lib/work/bars/index';
import type { BarsCommandBodies } from '#lib/work/bars/index';
import { massWeighed, netWeightsOf } from '#lib/work/bars/net-weights';
import { review } from '#lib/work/bars/review';
import { standingWeights } from '#lib/work/bars/standing';
import { upcastLines } from '#lib/work/bars/upcast';
import { barsRig, BEGUN, DAY, HOUR, POURED } from '#tests/support/bars';

const NOW = { note: '', room: null };
const CUT: BarsCommandBodies['cut'] = {
  cutter: { id: 'wires', name: 'Wire frame', kind: 'fixed' },
  count: 10,
  ends: 2,
  testers: 1,
  thickness: 24_250,
  log: { length: 254_000, trim: 3000, kerf: 500 },
  mass: grams(121),
};
const OF_SHELF = { to: null, at: null, from: 'shelf', note: '' } as const;

/** Out of its mould after two days and cut at once. */
const cutLot = () => {
  const rig = barsRig();
  rig.send('begin', BEGUN);
  rig.send('note-unmould', { state: 'out', ...NOW }, POURED + 2 * DAY);
  expect(rig.send('cut', CUT, POURED + 2 * DAY + HOUR)).toBeNull();
  return rig;
};

const settled = (net: number, episode: number, zero = 40) => ({
  weighed: {
    gross: mg(net + zero),
    zero: mg(zero),
    net: mg(net),
    text: '121.0',
    unit: 'g' as const,
    step: mg(100),
    raw: '',
    instrument: as<never>('fine'),
    check: null,
    episode,
    strip: null,
  },
  seen: { settled: { instrument: as<never>('fine'), gross: mg(net + zero), episode } },
});

describe('bars from mould to shelf', () => {
  it('are cut only once they are out, and each answer before is kept', () => {
    const rig = barsRig();
    rig.send('begin', BEGUN);
    expect(rig.send('cut', CUT)).toMatchObject({ code: 'wrong-order' });
    expect(rig.send('note-unmould', { state: 'too-soft', ...NOW }, POURED + 20 * HOUR)).toBeNull();
    expect(rig.send('cut', CUT)).toMatchObject({ code: 'wrong-order' });
    expect(rig.send('sell', { count: 1, ...OF_SHELF })).toMatchObject({ code: 'wrong-order' });
    rig.send('note-unmould', { state: 'out', ...NOW }, POURED + 44 * HOUR);
    expect(rig.send('cut', { ...CUT, count: 11, thickness: 24_250 })).toMatchObject({ code: 'bad-number', params: { what: 'log' } });
    // With a knife, no end faced: nine of 250 mm are 27.778 mm thick, to the micrometre.
    const knife = { ...CUT, count: 9, ends: 0, testers: 0, thickness: 27_778, log: { length: 250_000, trim: 3000, kerf: 0 } };
    const other = barsRig();
    other.send('begin', BEGUN);
    other.send('note-unmould', { state: 'out', ...NOW });
    expect(other.send('cut', knife)).toBeNull();
    expect(rig.send('cut', CUT)).toBeNull();
    expect(rig.send('note-unmould', { state: 'stuck', ...NOW })).toMatchObject({ code: 'wrong-order' });
    expect(rig.state()).toMatchObject({ unmould: [{ state: 'too-soft' }, { state: 'out' }], counts: { made: 10, shelf: 10 } });
  });

  it('begin once, by their mould, and nobody else’s command finds them', () => {
    const rig = barsRig();
    expect(rig.send('move', { place: 'A2' })).toMatchObject({ code: 'no-such' });
    expect(rig.send('begin', { ...BEGUN, moulds: [2] })).toMatchObject({ code: 'bad-number' });
    expect(rig.send('begin', BEGUN)).toBeNull();
    expect(rig.send('begin', BEGUN)).toMatchObject({ code: 'already-done' });
    expect(rig.send('move', { place: 'A2' }, POURED, { role: 'watcher' })).toMatchObject({ code: 'not-yours' });
    expect(rig.send('sell', { count: 1.5, ...OF_SHELF })).toMatchObject({ code: 'bad-number' });
    expect(rig.send('move', { place: 'A2' }, POURED, { expectedVersion: 9 })).toMatchObject({ code: 'moved-on' });
  });
});

describe('bars on the scale', () => {
  it('take a settled weight once, whichever lot asks', () => {
    const rig = cutLot();
    const first = settled(121_000, 7);
    const body = { bar: 1, for: 'cure', how: 'by-itself', weighed: first.weighed } as const;
    expect(rig.send('weigh', body, POURED + 2 * DAY, { observation: { settled: null } })).toMatchObject({ code: 'not-settled' });
    expect(rig.send('weigh', body, POURED + 2 * DAY, { observation: first.seen })).toBeNull();
    expect(rig.send('weigh', { ...body, bar: 2 }, POURED + 2 * DAY, { observation: first.seen })).toMatchObject({ code: 'already-done' });
    const other = settled(119_000, 8);
    const elsewhere = { observation: { ...other.seen, spent: 8 } };
    expect(rig.send('weigh', { ...body, weighed: other.weighed }, POURED, elsewhere)).toMatchObject({ code: 'already-done' });
    const busy = { observation: { ...other.seen, armed: as<never>('b2') } };
    expect(rig.send('weigh', { ...body, weighed: other.weighed }, POURED, busy)).toMatchObject({ code: 'wrong-state' });
    expect(rig.send('weigh', { ...body, bar: 12, weighed: other.weighed }, POURED, { observation: other.seen })).toMatchObject({
      code: 'no-such',
    });
  });

  it('are told from a known mass, which is settled and likely like one and says for ever what it was', () => {
    const rig = cutLot();
    const put = (net: number, episode: number, known: number | undefined, bar: number | null = null, on = rig) => {
      const { weighed, seen } = settled(net, episode);
      const body = { bar, for: 'mass', how: 'by-itself', weighed, ...(known === undefined ? {} : { known: mg(known) }) } as const;
      return on.send('weigh', body, POURED + 3 * DAY, { observation: seen });
    };
    expect(put(100_300, 7, undefined)).toMatchObject({ code: 'bad-number' });
    expect(put(100_300, 7, 100_000, 1)).toMatchObject({ code: 'bad-number' });
    // A bar in its place: 100 g ± 5 %.
    expect(put(121_000, 7, 100_000)).toMatchObject({ code: 'check-unlikely' });
    expect(put(100_300, 7, 100_000)).toBeNull();
    expect(put(100_300, 7, 100_000)).toMatchObject({ code: 'already-done' });
    expect(massWeighed(rig.state())).toMatchObject({ known: 100, shown: 100.3, step: 0.1, same: true });
    // No weight of a bar: neither one of the cure nor in the way of a cut that is crossed out.
    const bare = cutLot();
    expect(put(100_300, 7, 100_000, null, bare)).toBeNull();
    expect(bare.send('correct', { entry: bare.state().cut!.entry, reason: 'mistyped', note: '' })).toBeNull();
    expect([netWeightsOf(rig.state()).weights, standingWeights(rig.state(), 'cure')]).toEqual([[], []]);
    const other = settled(121_000, 8);
    const bar = { bar: null, for: 'net', how: 'by-itself', weighed: { ...other.weighed, instrument: as<never>('coarse') } } as const;
    const seen = { settled: { ...other.seen.settled, instrument: as<never>('coarse') } };
    expect(rig.send('weigh', bar, POURED + 3 * DAY, { observation: seen })).toBeNull();
    expect(massWeighed(rig.state())?.same).toBe(false);
    expect(rig.entries.filter((entry) => entry.kind === 'bars-weighed').map(({ body }) => body.known)).toEqual([100_000, undefined]);
    const read = upcastLines(rig.entries.map((one) => JSON.stringify(one)));
    expect(read.ok && fold(read.entries)).toEqual(rig.state());
    const entry = massWeighed(rig.state())!.entry;
    expect(rig.send('correct', { entry, reason: 'mistyped', note: '' }, POURED + 3 * DAY)).toBeNull();
    expect(massWeighed(rig.state())).toBeNull();
  });

  it('lose by the bars that were weighed the first time, crossed-out weights apart', () => {
    const rig = cutLot();
    const typed = (bar: number, net: number, day: number) =>
      rig.send('type-weight', { bar, for: 'cure', typed: { net: grams(net), text: String(net), unit: 'g' } }, POURED + day * DAY);
    for (const [bar, net] of [[1, 121], [5, 120]] as const) typed(bar, net, 2); // prettier-ignore
    for (const [bar, net] of [[1, 117], [5, 116], [9, 40]] as const) typed(bar, net, 9); // prettier-ignore
    typed(1, 171, 16);
    const slip = rig.entries.at(-1)?.id ?? '';
    rig.send('correct', { entry: as(slip), reason: 'mistyped', note: '' }, POURED + 16 * DAY);
    typed(1, 114, 16);
    expect(summaryOf(rig.state()).weighings).toMatchObject([
      { bars: 2, sum: 241_000, first: 241_000 },
      { bars: 2, sum: 233_000, first: 241_000 },
      { bars: 1, sum: 114_000, first: 121_000 },
    ]);
    expect(review(rig.entries).followed).toEqual([1, 5]);
  });
});

describe('bars that leave', () => {
  it('count down, come home, and are never fewer than none', () => {
    const rig = cutLot();
    const ada = as<never>('p-ada');
    rig.send('sell', { ...OF_SHELF, count: 4, to: ada });
    rig.send('spoil', { ...OF_SHELF, count: 1 });
    expect(rig.send('give', { ...OF_SHELF, count: 6 })).toMatchObject({ code: 'no-stock', params: { left: 5 } });
    expect(rig.send('bring-home', { count: 5, from: 'buyer', to: ada, at: null, note: '' })).toMatchObject({ code: 'no-stock' });
    rig.send('bring-home', { count: 1, from: 'buyer', to: ada, at: null, note: '' });
    expect(rig.state().counts).toEqual({ made: 10, sold: 3, given: 0, spoiled: 1, away: 0, aside: 0, shelf: 6 });
    const sale = rig.entries.find(({ kind }) => kind === 'bars-sold')?.id ?? '';
    // One of the four came back: the sale cannot be as if it had never been.
    expect(rig.send('correct', { entry: as(sale), reason: 'mistyped', note: '' })).toMatchObject({ code: 'no-stock' });
  });

  it('that were away when the lot was held are counted all the same, and none beside them', () => {
    const rig = cutLot();
    rig.send('take', { count: 6, at: 'm1', note: '' });
    rig.send('hold', { reason: 'recall' });
    const count = { took: 6, home: 4, gave: 0, at: 'm1', note: '' };
    expect(rig.send('count-market', { ...count, took: 7 })).toMatchObject({ code: 'wrong-state', params: { status: 'held' } });
    expect(rig.send('count-market', count)).toBeNull();
    expect(rig.state().counts).toMatchObject({ sold: 2, away: 0, shelf: 8 });
  });

  it('come back from who has them: to the shelf, kept apart, or spoiled without having been on the shelf', () => {
    const rig = cutLot();
    const ada = as<never>('p-ada');
    const back = { from: 'buyer', to: ada, at: 'o1', note: 'torn band' } as const;
    rig.send('sell', { ...OF_SHELF, count: 6, to: ada, at: 'o1' });
    rig.send('give', { ...OF_SHELF, count: 1, to: ada, at: 'o1' });
    rig.send('hold', { reason: 'recall' });
    // Nobody else has any, nor she more than she was sold; a gift is none of them.
    expect(rig.send('bring-home', { ...back, to: null, count: 1 })).toMatchObject({ code: 'no-stock', params: { left: 0 } });
    expect(rig.send('bring-home', { ...back, at: null, count: 1 })).toMatchObject({ code: 'no-stock', params: { left: 0 } });
    expect(rig.send('bring-home', { ...back, count: 7 })).toMatchObject({ code: 'no-stock', params: { left: 6 } });
    rig.send('bring-home', { ...back, count: 1 });
    rig.send('bring-home', { ...back, count: 2, into: 'aside' });
    rig.send('bring-home', { ...back, count: 1, into: 'spoiled' });
    rig.send('bring-home', { ...back, count: 1, was: 'given' });
    expect(rig.state().counts).toEqual({ made: 10, sold: 2, given: 0, spoiled: 1, away: 0, aside: 2, shelf: 5 });
    rig.send('release', { note: '' });
    expect(rig.send('sell', { ...OF_SHELF, from: 'aside', count: 1 })).toMatchObject({ code: 'wrong-state' });
    expect(rig.send('bring-home', { count: 3, from: 'aside', to: null, at: null, note: '' })).toMatchObject({ code: 'no-stock' });
    rig.send('bring-home', { count: 1, from: 'aside', to: null, at: null, note: '' });
    rig.send('spoil', { ...OF_SHELF, from: 'aside', count: 1 });
    expect(rig.state().counts).toEqual({ made: 10, sold: 2, given: 0, spoiled: 2, away: 0, aside: 0, shelf: 6 });
    expect(hadBy(rig.state().moves)).toMatchObject([{ was: 'sold', to: ada, at: 'o1', count: 2 }]);
    const read = upcastLines(rig.entries.map((entry) => JSON.stringify(entry)));
    expect(read.ok && fold(read.entries)).toEqual(rig.state());
  });

  it('are none where a log is thrown away whole, wherever it stands, until that is crossed out', () => {
    const rig = barsRig();
    rig.send('begin', BEGUN);
    rig.send('note-unmould', { state: 'stuck', ...NOW });
    const lost = { ...CUT, cutter: { id: null, name: '', kind: 'none' }, count: 0, ends: 0, testers: 0 } as const;
    expect(rig.send('cut', { ...lost, testers: 1 })).toMatchObject({ code: 'wrong-order' });
    expect(rig.send('cut', lost)).toBeNull();
    expect(summaryOf(rig.state())).toMatchObject({ cut: { count: 0, mass: null }, counts: { made: 0, shelf: 0 } });
    expect(rig.send('sell', { count: 1, ...OF_SHELF })).toMatchObject({ code: 'no-stock' });
    expect(rig.send('correct', { entry: rig.state().cut!.entry, reason: 'mistyped', note: '' })).toBeNull();
    expect(rig.state().cut).toBeNull();
  });

  it('are held from sale, not from the bin', () => {
    const rig = cutLot();
    rig.send('hold', { reason: 'complaint' });
    expect(rig.send('sell', { ...OF_SHELF, count: 1 })).toMatchObject({ code: 'wrong-state', params: { status: 'held' } });
    expect(rig.send('spoil', { ...OF_SHELF, count: 1 })).toBeNull();
    rig.send('release', { note: 'titrated' });
    expect(rig.send('sell', { ...OF_SHELF, count: 1 })).toBeNull();
  });

  it('are counted once after a market: the rest was sold, those taken along before among them', () => {
    const rig = cutLot();
    rig.send('take', { count: 6, at: 'm1', note: '' });
    const count = { took: 8, home: 3, gave: 1, at: 'm1', note: '' };
    expect(rig.send('count-market', { ...count, home: 8 })).toMatchObject({ code: 'bad-number' });
    expect(rig.send('count-market', { ...count, took: 5, home: 0 })).toMatchObject({ code: 'no-stock' });
    // Nobody says which market: those taken along were taken to one. Another one has none of them.
    expect(rig.send('count-market', { ...count, took: 5, at: null, home: 0 })).toMatchObject({ code: 'no-stock', params: { left: 6 } });
    expect(rig.send('count-market', { ...count, took: 5, at: 'm2' })).toMatchObject({
      code: 'no-stock',
      params: { left: 4, from: 'shelf' },
    });
    // What a count on a page goes by: of this market alone, never those that are away at another.
    const away = (market: string | null) => awayFor(summaryOf(rig.state()), market);
    expect([away('m1'), away('m2'), away(null)]).toEqual([6, 0, 6]);
    const both = { counts: { away: 7 }, orders: ['m1', 'm2'].map((order) => ({ order, sold: 0, given: 0, away: 3 })) };
    expect([awayFor(both, null), awayFor({ ...both, counts: { away: 6 } }, null)]).toEqual([1, 0]);
    expect(rig.send('count-market', { ...count, at: null })).toBeNull();
    expect(forOrders(rig.state().moves)).toEqual([{ order: 'm1', sold: 4, given: 1, away: 0 }]);
    expect(rig.state().counts).toEqual({ made: 10, sold: 4, given: 1, spoiled: 0, away: 0, aside: 0, shelf: 5 });
  });
});

it('what was stored reads back to the same bars, and a strange kind, key or version does not', () => {
  const rig = cutLot();
  rig.send('trim', { how: 'planed', bars: 10, before: grams(1210), after: grams(1184) });
  rig.send('photo', { sha256: 'a'.repeat(64), note: 'top' }, POURED + 5 * DAY + HOUR);
  rig.send('note', { about: 'room', text: '', room: 19_000 as never, humidity: 520_000 });
  rig.send('label', { net: grams(100) });
  rig.send('move', { place: 'B3' });
  rig.send('take', { count: 2, at: null, note: '' });
  rig.send('bring-home', { count: 2, from: 'away', to: null, at: null, note: '' });
  const lines = rig.entries.map((entry) => JSON.stringify(entry));
  const read = upcastLines(lines);
  expect(read.ok && fold(read.entries)).toEqual(rig.state());
  expect(rig.state().photos).toMatchObject([{ day: 5 }]);
  expect(review(rig.entries).story.map(({ code }) => code)).toContain('brought-home');
  const broken = (change: object) => upcastLines([JSON.stringify({ ...JSON.parse(lines[0] ?? ''), ...change })]);
  expect(broken({ kind: 'bars-melted' })).toMatchObject({ ok: false, failure: { code: 'unknown-kind' } });
  expect(broken({ v: 2 })).toMatchObject({ ok: false, failure: { code: 'unknown-version' } });
  expect(broken({ body: { ...BEGUN } })).toMatchObject({ ok: false, failure: { code: 'malformed' } });
});
