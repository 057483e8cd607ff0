import { expect, it } from 'vitest';
import { mg } from '#lib/units/mass';
import { summaryOf } from '#lib/work/bars/index';
import { barsRig, BEGUN, DAY, POURED } from '#tests/support/bars';
import { labelBefore } from '../../../app/bars/_parts/cut-model';

const row = (poured: number, label: number | null, formula = 'f1') => {
  const rig = barsRig();
  rig.send('begin', { ...BEGUN, poured, of: { ...BEGUN.of, formula: { ...BEGUN.of.formula, id: formula } } });
  if (label !== null) rig.send('label', { net: mg(label) });
  return summaryOf(rig.state());
};

it('a cut is held against the newest label of the same formula out of such a mould', () => {
  const now = row(POURED + 9 * DAY, null);
  const all = [row(POURED + 5 * DAY, 115_500), row(POURED, 98_000), row(POURED + 6 * DAY, 90_000, 'another'), now];
  expect(labelBefore(now, all)).toBe('115.5');
  expect(labelBefore(now, [now])).toBe('');
});
