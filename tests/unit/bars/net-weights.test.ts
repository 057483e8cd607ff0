import { expect, it } from 'vitest';
import { grams } from '#lib/units/mass';
import { inspected, netWeightsOf } from '#lib/work/bars/net-weights';
import { barsRig, BEGUN, DAY, POURED } from '#tests/support/bars';

it('net weights are those for the label, a bar weighed twice as it was last, a crossed-out one not at all', () => {
  const rig = barsRig();
  rig.send('begin', BEGUN);
  rig.send('note-unmould', { state: 'out', note: '', room: null }, POURED + DAY);
  const cutter = { id: null, name: 'Knife', kind: 'adjustable' } as const;
  rig.send('cut', { cutter, count: 10, ends: 0, testers: 0, thickness: null, log: null, mass: null }, POURED + DAY);
  const type = (bar: number | null, net: number, purpose: 'net' | 'cure' = 'net') =>
    expect(
      rig.send('type-weight', { bar, for: purpose, typed: { net: grams(net), text: String(net), unit: 'g' } }, POURED + 40 * DAY),
    ).toBeNull();
  type(1, 120);
  type(2, 121);
  type(1, 119.5);
  type(3, 99, 'cure');
  type(null, 118);
  type(null, 118);
  expect(netWeightsOf(rig.state())).toEqual({ weights: [121, 119.5, 118, 118], step: null });
  const entry = rig.state().weights.at(-1)!.entry;
  expect(rig.send('correct', { entry, reason: 'wrong-bar', note: '' }, POURED + 40 * DAY)).toBeNull();
  expect(netWeightsOf(rig.state()).weights).toEqual([121, 119.5, 118]);
  // An inspection is about what was there when it began: three were sold before it, two after.
  const other = barsRig();
  other.send('begin', BEGUN);
  other.send('note-unmould', { state: 'out', note: '', room: null }, POURED + DAY);
  other.send('cut', { cutter, count: 10, ends: 0, testers: 0, thickness: null, log: null, mass: null }, POURED + DAY);
  const sell = (count: number, day: number) =>
    expect(other.send('sell', { count, to: null, at: null, from: 'shelf', note: '' }, POURED + day * DAY)).toBeNull();
  sell(3, 40);
  expect(inspected(other.state())).toBe(7);
  other.send('type-weight', { bar: null, for: 'net', typed: { net: grams(120), text: '120', unit: 'g' } }, POURED + 41 * DAY);
  sell(2, 42);
  expect(inspected(other.state())).toBe(7);
});
