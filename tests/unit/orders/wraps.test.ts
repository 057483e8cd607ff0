import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import type { Goods } from '#lib/work/orders/documents';
import { drawFrom, drawnBy, piecesFor, piecesOnHand, pricePerPiece, wrapOnHand } from '#lib/work/orders/wraps';

const BAND: Goods = { id: 'band', kind: 'wrap', name: 'Paper band', pack: '50', price: '6', days: 10, perBar: '1', onHand: 40 };
const LOTS: Goods = {
  ...BAND,
  onHand: null,
  lots: [
    { mark: 'PB 1', onHand: 30, drawn: 0, price: null },
    { mark: 'PB 2', onHand: 100, drawn: 5, price: '8' },
  ],
};
const row = (bars: number, ...used: readonly { goods: string; lot: string | null; pieces: number }[]) => ({ wrapped: { bars, used } });
const took = (lot: string | null, pieces: number) => row(pieces, { goods: 'band', lot, pieces });

describe('wraps on hand', () => {
  it('are what was counted less what was drawn since, lot by lot', () => {
    const drawn = drawnBy([took(null, 12), took('PB 1', 8), took('PB 2', 25), took('PB 2', 5), {}]);
    expect(wrapOnHand(BAND, drawn)).toEqual([{ lot: null, left: 28, price: null }]);
    // Counted once five of the second had gone.
    expect(wrapOnHand(LOTS, drawn)).toEqual([
      { lot: 'PB 1', left: 22, price: null },
      { lot: 'PB 2', left: 75, price: '8' },
    ]);
    expect(piecesOnHand(LOTS, drawn)).toBe(97);
    expect(piecesOnHand({ ...BAND, onHand: null }, drawn)).toBe(-12);
    expect(piecesOnHand({ ...BAND, drawn: 12 }, drawn)).toBe(40);
  });

  it('are so many for a bar, a begun box whole, and none for another soap', () => {
    expect([piecesFor(BAND, 'meadow', 7), piecesFor({ ...BAND, perBar: '2' }, 'meadow', 7)]).toEqual([7, 14]);
    // A tenth has no whole binary fraction: thirty bars are three boxes.
    expect([1, 10, 11, 30].map((bars) => piecesFor({ ...BAND, perBar: '0.1' }, 'meadow', bars))).toEqual([1, 1, 2, 3]);
    expect(piecesFor({ ...BAND, only: 'oat' }, 'meadow', 7)).toBe(0);
    expect(piecesFor({ ...BAND, only: 'oat' }, 'oat', 7)).toBe(7);
    expect(piecesFor({ ...BAND, perBar: null }, 'oat', 7)).toBe(0);
  });

  it('come from the first lot as far as it goes, and what is short is told', () => {
    const lots = wrapOnHand(LOTS, drawnBy([took('PB 1', 26), took('PB 2', 90)]));
    expect(drawFrom(lots, 3)).toEqual({ from: [{ lot: 'PB 1', pieces: 3 }], short: 0 });
    expect(drawFrom(lots, 10)).toEqual({
      from: [
        { lot: 'PB 1', pieces: 4 },
        { lot: 'PB 2', pieces: 6 },
      ],
      short: 0,
    });
    expect(drawFrom(lots, 24)).toEqual({
      from: [
        { lot: 'PB 1', pieces: 4 },
        { lot: 'PB 2', pieces: 20 },
      ],
      short: 5,
    });
    expect(drawFrom(wrapOnHand({ ...BAND, onHand: null }, {}), 4)).toEqual({ from: [{ lot: null, pieces: 4 }], short: null });
    expect(drawFrom(lots, 0)).toEqual({ from: [], short: 0 });
  });

  it('all the pieces asked for are taken, no lot twice, and none below nothing but the last', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -5, max: 40 }), { minLength: 1, maxLength: 5 }),
        fc.integer({ min: 0, max: 120 }),
        (left, pieces) => {
          const lots = left.map((one, n) => ({ lot: `L${n}`, left: one, price: null }));
          const { from, short } = drawFrom(lots, pieces);
          expect(from.reduce((sum, one) => sum + one.pieces, 0)).toBe(pieces);
          expect(new Set(from.map(({ lot }) => lot)).size).toBe(from.length);
          const there = left.reduce((sum, one) => sum + Math.max(0, one), 0);
          expect(short).toBe(Math.max(0, pieces - there));
          for (const one of from.slice(0, -1)) expect(one.pieces).toBeLessThanOrEqual(lots.find(({ lot }) => lot === one.lot)?.left ?? 0);
        },
      ),
    );
  });

  it('cost what their own lot cost, else what a pack usually costs', () => {
    expect(pricePerPiece(LOTS, 'PB 1')).toBeCloseTo(0.12, 12);
    expect(pricePerPiece(LOTS, 'PB 2')).toBeCloseTo(0.16, 12);
    expect(pricePerPiece({ ...LOTS, pack: null }, 'PB 2')).toBeNull();
    expect(pricePerPiece(undefined, null)).toBeNull();
  });
});
