import { expect, it } from 'vitest';
import { summaryOf } from '#lib/work/bars/index';
import { isThrownAway } from '../../../app/bars/_parts/stage';
import { barsRig, BEGUN } from '#tests/support/bars';

const CUT = { ends: 0, testers: 0, thickness: null, log: null, mass: null };
const thrown = { ...CUT, cutter: { id: null, name: '', kind: 'none' }, count: 0 } as const;
const cut = { ...CUT, cutter: { id: null, name: 'wire', kind: 'fixed' }, count: 9 } as const;

it('a log is thrown away whole where it is cut into no bar, and stands again once that is crossed out', () => {
  const bars = barsRig();
  const is = () => isThrownAway(summaryOf(bars.state()));
  bars.send('begin', BEGUN);
  bars.send('note-unmould', { state: 'out', note: '', room: null });
  expect(is()).toBe(false);
  expect(bars.send('cut', { ...cut, count: 0 })).toMatchObject({ code: 'bad-number' });
  bars.send('cut', thrown);
  expect(is()).toBe(true);
  bars.send('correct', { entry: bars.state().cut!.entry, reason: 'mistyped', note: '' });
  expect(is()).toBe(false);
  bars.send('cut', cut);
  expect(is()).toBe(false);
});
