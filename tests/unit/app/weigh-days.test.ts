import { expect, it } from 'vitest';
import { grams } from '#lib/units/mass';
import { summaryOf } from '#lib/work/bars/index';
import { barsRig, BEGUN, DAY, POURED } from '#tests/support/bars';
import { weighDaysOf } from '../../../app/bars/_parts/weigh-days';

it('a day on which none of the followed bars was weighed has no mean, and the day after keeps its own', () => {
  const rig = barsRig();
  rig.send('begin', BEGUN);
  rig.send('note-unmould', { state: 'out', note: '', room: null }, POURED + DAY);
  const cutter = { id: null, name: '', kind: 'adjustable' } as const;
  rig.send('cut', { cutter, count: 10, ends: 0, testers: 0, thickness: null, log: null, mass: null }, POURED + DAY);
  for (const [bar, net, day] of [
    [1, 120, 2],
    [9, 40, 9],
    [1, 114, 16],
  ] as const)
    // prettier-ignore
    expect(rig.send('type-weight', { bar, for: 'cure', typed: { net: grams(net), text: String(net), unit: 'g' } }, POURED + day * DAY)).toBeNull();
  const days = weighDaysOf(rig.state().weights, summaryOf(rig.state()).weighings);
  expect(days.map(({ weights, weighing }) => [weights[0]?.bar, weighing?.sum ?? null])).toEqual([
    [1, 120_000],
    [9, null],
    [1, 114_000],
  ]);
});
