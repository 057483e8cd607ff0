import { expect, it } from 'vitest';
import { isThrownAway } from '../../../app/bars/_parts/stage';
import { barsRig, BEGUN } from '#tests/support/bars';

const CUTTER = { id: null, name: '', kind: 'none' } as const;
const cut = (count: number, testers: number) => {
  const bars = barsRig();
  bars.send('begin', BEGUN);
  bars.send('note-unmould', { state: 'out', note: '', room: null });
  bars.send('cut', { cutter: CUTTER, count, ends: 0, testers, thickness: null, log: null, mass: null });
  return bars;
};

it('a log is thrown away whole where nothing came of it: a tester is followed like any bar', () => {
  const none = cut(0, 0);
  expect([none, cut(0, 1), cut(9, 0)].map((bars) => [bars.state().cut?.count, isThrownAway(bars.state())])).toEqual([
    [0, true],
    [0, false],
    [9, false],
  ]);
  none.send('correct', { entry: none.state().cut!.entry, reason: 'mistyped', note: '' });
  expect(isThrownAway(none.state())).toBe(false);
});
