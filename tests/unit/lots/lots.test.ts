import { describe, expect, it } from 'vitest';
import { mg } from '#lib/units/mass';
import type { Lot } from '#lib/work/formula/index';
import { lotSchema } from '#lib/work/formula/schema/lot';
import { findLot } from '#lib/work/lots/find';
import { faultOf, firstOut } from '#lib/work/lots/fitness';
import { stockOf } from '#lib/work/lots/stock';

const TODAY = '2026-11-28';
const NOW = { wall: Date.UTC(2026, 10, 28, 9), offsetMin: 60 };
const lot = (mark: string, more: Partial<Lot> = {}): Lot => ({
  id: `lot-${mark}`,
  mark,
  material: 'olive',
  certificate: null,
  files: [],
  ...more,
});

describe('lots', () => {
  it('a lot of an older program still reads; a day that is none does not', () => {
    expect(lotSchema.safeParse(lot('O 1')).success).toBe(true);
    const whole = lot('O 1', {
      supplier: 'Mill',
      received: { day: '2026-10-01', amount: mg(5_000_000) },
      opened: '2026-10-02',
      bestBefore: '2027-01-31',
      state: 'quarantined',
      why: 'seal broken',
      gtin: '06291041500213',
      adjustments: [{ day: TODAY, mass: mg(-20_000), why: 'spilt' }],
    });
    expect(lotSchema.safeParse(whole).success).toBe(true);
    for (const wrong of [
      { bestBefore: '2027-02-30' },
      { received: { day: 'soon' } },
      { gtin: '123' },
      { state: 'lost' },
      { adjustments: [{ day: TODAY, mass: 0.5, why: 'x' }] },
    ])
      expect(lotSchema.safeParse({ ...lot('O 1'), ...wrong }).success).toBe(false);
  });

  it('its last day still counts; set apart and used up go before the day', () => {
    expect(faultOf(lot('a', { bestBefore: TODAY }), TODAY)).toBeNull();
    expect(faultOf(lot('a', { bestBefore: '2026-11-27' }), TODAY)).toBe('expired');
    expect(faultOf(lot('a', { bestBefore: '2026-11-27', state: 'quarantined' }), TODAY)).toBe('quarantined');
    expect(faultOf(lot('a'), TODAY)).toBeNull();
  });

  it('first expired, first out: unfit ones last, then by day, then what is open', () => {
    const lots = [
      lot('none'),
      lot('past', { bestBefore: '2026-11-01' }),
      lot('late', { bestBefore: '2027-06-01' }),
      lot('soon', { bestBefore: '2026-12-01' }),
      lot('soon-open', { bestBefore: '2026-12-01', opened: '2026-11-01' }),
      lot('apart', { bestBefore: '2026-12-01', state: 'quarantined' }),
    ];
    expect(firstOut(lots, TODAY).map(({ mark }) => mark)).toEqual(['soon-open', 'soon', 'late', 'none', 'past', 'apart']);
  });

  it('stock is what came, put right, less what was weighed; it may be below zero, and unknown stays unknown', () => {
    const came = lot('a', {
      received: { day: TODAY, amount: mg(1_000_000) },
      adjustments: [{ day: TODAY, mass: mg(-100_000), why: 'spilt' }],
    });
    expect(stockOf(came, mg(400_000))).toEqual({ received: 1_000_000, adjusted: -100_000, used: 400_000, left: 500_000 });
    expect(stockOf(came, mg(1_200_000)).left).toBe(-300_000);
    expect(stockOf(lot('a', { received: { day: TODAY } }), mg(5)).left).toBeNull();
  });

  it('what a reader sent finds the lot in the hand: by mark, lot number or item; never one of something else, nor one of two', () => {
    const gtin = '06291041500213';
    const lots = [
      lot('L7', { gtin, bestBefore: '2027-01-31' }),
      lot('L8', { gtin: '09521234543213' }),
      lot('S1', { material: 'soda' }),
      lot('old', { gtin: '09521234543213', state: 'used-up' }),
    ];
    const found = (text: string, material: string | null = 'olive') => {
      const one = findLot(lots, text, material, NOW);
      return one.is === 'lot' ? [one.lot.mark, one.fault] : one.is;
    };
    expect(found(' l7 ')).toEqual(['L7', null]);
    expect(found(`(01)${gtin}(10)L7`)).toEqual(['L7', null]);
    // What its label says ends earlier counts.
    expect(found(`(01)${gtin}(17)261101(10)L7`)).toEqual(['L7', 'expired']);
    // A number below bars: the one that is not used up.
    expect(found('9521234543213')).toEqual(['L8', null]);
    expect(found('S1')).toBe('other');
    expect(found('S1', null)).toEqual(['S1', null]);
    expect(found('(01)09521234543213(10)L7')).toBe('unknown');
    expect(found('')).toBe('unknown');
    const twins = [lot('T1', { gtin }), lot('T2', { gtin })];
    expect(findLot(twins, gtin, 'olive', NOW)).toEqual({ is: 'unclear' });
  });
});
