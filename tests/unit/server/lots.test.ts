import { describe, expect, it } from 'vitest';
import { createLotStores } from '#server/bench/lots';
import { createPlans } from '#server/bench/plans';
import { as } from '#lib/units/id';
import { SAMPLE_WORKSHOP } from '#lib/work/formula/sample/workshop';
import type { Lot } from '#lib/work/formula/index';
import { EMPTY_SHELF, withPut } from '#lib/work/shelf/shelf';
import type { Noun, Shelf } from '#lib/work/shelf/shelf';
import { FIRST_FORMULA, FIRST_VESSELS, SODA_LOT } from '#tests/support/first-formula';
import { STILL } from '#tests/support/store-rig';

/** 9 October 2025 by the still clock. */
const TODAY = '2025-10-09';
const lot = (mark: string, more: Partial<Lot> = {}): Lot => ({
  id: mark,
  mark,
  material: 'coconut',
  certificate: null,
  files: [],
  ...more,
});
const shelved = (...documents: readonly (readonly [Noun, { readonly id: string }])[]): Shelf =>
  documents.reduce<Shelf>(
    (shelf, [noun, document]) => withPut(shelf, { noun, id: document.id, version: 1, document, note: '' }, as('p'), 1),
    EMPTY_SHELF,
  );

describe('lots as the bench asks for them', () => {
  const shelf = shelved(['lot', lot('old', { bestBefore: '2025-10-08' })], ['lot', lot('good', { bestBefore: TODAY })]);
  it('says what a lot is called, of what it is, and that its day is over', () => {
    const stores = createLotStores(() => shelf, 'practice', STILL);
    expect(stores.kept('old', 'coconut')).toEqual({ is: 'lot', id: 'old', mark: 'old', fault: 'expired' });
    expect(stores.kept('good', 'coconut')).toMatchObject({ fault: null });
    expect(stores.kept('good', 'soda')).toEqual({ is: 'other' });
    expect(stores.scanned('GOOD', 'coconut')).toEqual({ is: 'lot', id: 'good', mark: 'good', fault: null });
    expect(stores.scanned('good', 'soda')).toEqual({ is: 'other' });
  });

  it('a lot that stands on no shelf is a typed plan’s in practice, and none at all in a real workshop', () => {
    expect(createLotStores(() => shelf, 'practice', STILL).kept('lot-coconut-07', 'coconut')).toBeNull();
    expect(createLotStores(() => shelf, 'real', STILL).kept('lot-coconut-07', 'coconut')).toEqual({ is: 'unknown' });
  });

  it('offers first what expires first, what should not be used last, and what is used up only where the plan names it', () => {
    const prepared = { id: 'ready', formula: { id: FIRST_FORMULA.id, version: 1 }, size: null, lots: { soda: SODA_LOT.id }, note: '' };
    const lots = [
      lot('late', { bestBefore: '2026-06-01' }),
      lot('soon', { bestBefore: '2025-12-01' }),
      lot('past', { bestBefore: '2025-10-01' }),
      lot('empty', { state: 'used-up' }),
      { ...SODA_LOT, state: 'used-up' as const },
    ];
    const shelf = shelved(
      ['formula', FIRST_FORMULA],
      ['prepared', prepared],
      ...FIRST_VESSELS.map((one) => ['vessel', one] as const),
      ...lots.map((one) => ['lot', one] as const),
    );
    const [offered] = createPlans({ shelf: () => shelf, scales: SAMPLE_WORKSHOP.scales, realm: 'real', today: () => TODAY }).list().plans;
    const there = (material: string) => {
      const line = offered?.plan.lines.find((one) => one.material.id === material);
      return (offered?.lots[line?.id ?? ''] ?? []).map(({ id, fault = 'fit' }) => [id, fault]);
    };
    expect(there('coconut')).toEqual([
      ['soon', 'fit'],
      ['late', 'fit'],
      ['past', 'expired'],
    ]);
    expect(there('sodium-hydroxide')).toEqual([[SODA_LOT.id, 'used-up']]);
  });
});
