import { expect, it } from 'vitest';
import { barsHint } from '#hardware/practice/bars';
import type { BarsCue } from '#lib/bench/bars/types';
import { as } from '#lib/units/id';

const cue = (like: number, days: number, own: boolean): BarsCue => ({
  lot: 'bars:batch-1/1',
  mark: '26-11/1',
  name: 'Slate',
  for: 'cure',
  phase: 'put-on',
  why: null,
  scale: as<NonNullable<BarsCue['scale']>>('fine'),
  bar: 2,
  done: 0,
  of: 1,
  zero: 0,
  net: null,
  expected: { low: 0, high: 1e6, like, own, days },
  last: null,
  acceptsIn: null,
  step: 1,
});
const barAt = (...of: Parameters<typeof cue>) => barsHint(cue(...of), [])?.bar;

it('a bar that comes back after weeks has dried, and is not the thing that lay there before', () => {
  const [first, again, later] = [barAt(80_000, 0, false), barAt(80_000, 0, false), barAt(80_000, 14, true)];
  expect(again).toEqual(first);
  expect(later?.empty).toBeLessThan(77_000);
  expect(later?.id).not.toBe(first?.id);
});
