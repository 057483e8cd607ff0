import { describe, expect, it } from 'vitest';
import { as } from '#lib/units/id';
import { grams } from '#lib/units/mass';
import { summaryOf } from '#lib/work/bars/index';
import type { BarsSummary } from '#lib/work/bars/index';
import { standOf } from '#lib/work/orders/delivered';
import type { OrderLine } from '#lib/work/orders/documents';
import { BEGUN, DAY, POURED, barsRig } from '#tests/support/bars';

const MILL = as<never>('p-mill');
const OF_SHELF = { to: null, from: 'shelf', note: '' } as const;

/** Ten bars of a formula, cut and labelled. */
const cutLot = (mark: string, formula: string, label: number | null) => {
  const rig = barsRig(as(`bars:${mark}`));
  rig.send('begin', { ...BEGUN, mark, of: { ...BEGUN.of, formula: { id: formula, name: formula, version: 1 } } });
  rig.send('note-unmould', { state: 'out', note: '', room: null }, POURED + DAY);
  const cutter = { id: null, name: 'wire', kind: 'adjustable' } as const;
  rig.send('cut', { cutter, count: 10, ends: 0, testers: 0, thickness: null, log: null, mass: null }, POURED + DAY);
  if (label !== null) rig.send('label', { net: grams(label) });
  return rig;
};
const rowsOf = (...rigs: readonly ReturnType<typeof cutLot>[]): readonly BarsSummary[] => rigs.map((rig) => summaryOf(rig.state()));
const line = (formula: string, bars: number, label: string | null = null): OrderLine => ({ formula, bars, label });

describe('how far an order is filled', () => {
  it('by what was sold or given for it, less what came back; what is on its way is asked for no longer', () => {
    const rig = cutLot('26-1/1', 'meadow', null);
    rig.send('sell', { ...OF_SHELF, count: 5, to: MILL, at: 'o1' });
    rig.send('give', { ...OF_SHELF, count: 1, to: MILL, at: 'o1' });
    rig.send('sell', { ...OF_SHELF, count: 1, at: null });
    rig.send('take', { count: 2, at: 'o1', note: '' });
    const order = { id: 'o1', wants: [line('meadow', 12)] };
    expect(standOf(order, rowsOf(rig))).toMatchObject({ asked: 12, over: 6, away: 2, open: 4, handed: [{ mark: '26-1/1', over: 6 }] });
    rig.send('bring-home', { count: 2, from: 'buyer', to: MILL, at: 'o1', note: '', into: 'aside' });
    expect(standOf(order, rowsOf(rig))).toMatchObject({ over: 4, away: 2, open: 6 });
    const sale = rig.entries.findLast(({ kind }) => kind === 'bars-taken')?.id ?? '';
    rig.send('correct', { entry: as(sale), reason: 'mistyped', note: '' });
    expect(standOf(order, rowsOf(rig))).toMatchObject({ away: 0, open: 8 });
    const gift = rig.entries.find(({ kind }) => kind === 'bars-given')?.id ?? '';
    rig.send('correct', { entry: as(gift), reason: 'mistyped', note: '' });
    expect(standOf(order, rowsOf(rig))).toMatchObject({ over: 3, open: 9 });
  });

  it('the heaviest label that is carried first; another soap beside it, and too many are not less than none', () => {
    const heavy = cutLot('26-1/1', 'meadow', 110);
    const light = cutLot('26-2/1', 'meadow', 90);
    const other = cutLot('26-3/1', 'slate', null);
    for (const [rig, count] of [[heavy, 4], [light, 6], [other, 1]] as const) rig.send('sell', { ...OF_SHELF, count, at: 'o1' }); // prettier-ignore
    const order = { id: 'o1', wants: [line('meadow', 5), line('meadow', 6, '100')] };
    const stand = standOf(order, rowsOf(heavy, light, other));
    // Four heavy bars to the line that asks for 100 g, five light ones to the other; the sixth was handed over all the same.
    expect(stand.lines.map(({ over, open }) => [over, open])).toEqual([
      [5, 0],
      [5, 1],
    ]);
    expect(stand).toMatchObject({ over: 11, handed: [{ over: 4 }, { over: 6 }, { formula: 'slate', over: 1 }] });
    const more = { id: 'o1', wants: [line('meadow', 3)] };
    expect(standOf(more, rowsOf(heavy, light)).lines).toMatchObject([{ over: 10, open: 0 }]);
  });
});
