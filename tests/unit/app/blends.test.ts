import { describe, expect, it } from 'vitest';
import type { Amount, Formula } from '#lib/work/formula/index';
import { entry, formula, mass, share } from '#tests/support/formula';
import { withBlend, withoutBlend } from '../../../app/formulas/_parts/blends';

const scented = (...amounts: readonly Amount[]): Formula =>
  formula({ entries: amounts.map((amount, at) => entry(`scent-${at}`, 'fragrance', `scent-${at}`, amount)) });
const amountsOf = (one: Formula): readonly (Amount | null)[] => one.entries.map(({ amount }) => amount);

describe('fragrances made one blend', () => {
  it('are as much together as they were one by one, and apart again', () => {
    const apart = scented(share('1'), share('1'), share('0.5'));
    const together = withBlend(apart, 'Meadow');
    expect(together.blends).toMatchObject([{ name: 'Meadow', amount: share('2.5') }]);
    expect(amountsOf(together)).toEqual([share('40', 'blend'), share('40', 'blend'), share('20', 'blend')]);
    const [blend] = together.blends;
    if (blend === undefined) throw new Error('no blend');
    expect(amountsOf(withoutBlend(together, blend))).toEqual(amountsOf(apart));
  });

  it('come to 100 % of the blend to the last digit', () => {
    const [a, b, c] = amountsOf(withBlend(scented(share('1'), share('1'), share('1')), 'Thirds'));
    expect([a, b, c]).toEqual([share('33.3333', 'blend'), share('33.3333', 'blend'), share('33.3334', 'blend')]);
  });

  it('keep what was typed where no sum can be told: weights, or digits still to come', () => {
    expect(withBlend(scented(share('1'), share('')), 'Half').blends).toMatchObject([{ amount: null }]);
    expect(withBlend(scented(share('1'), mass('5')), 'Mixed').blends).toMatchObject([{ amount: null }]);
    expect(amountsOf(withBlend(scented(share('1'), share('')), 'Half'))).toEqual([share('1', 'blend'), share('', 'blend')]);
  });
});
