import { describe, expect, it } from 'vitest';
import { calibrationFrom, checkFill } from '#lib/work/formula/index';
import type { Fill } from '#lib/work/formula/index';
import { contextOf } from '#lib/work/shelf/context';
import { EMPTY_SHELF, withPut } from '#lib/work/shelf/shelf';
import { as, type PersonId } from '#lib/units/id';
import { formula, planned, workshop } from '#tests/support/formula';

/** 1500 cm³ of batter computed, 1650 g of it; 110 g stay in the pot, 1 % is lost: 1386 cm³ reach two moulds of 800 cm³. */
const fill = (full: readonly [string, string], given: Partial<Fill> = {}): Fill => ({
  id: 'b1',
  mark: '26-1',
  computed: { volume: '1500', grams: '1650' },
  residue: '110',
  pourLoss: '1',
  moulds: full.map((one, at) => ({ mould: `m${at}`, name: `mould ${at}`, count: 1, brim: '800', full: one, grams: null })),
  ...given,
});

const factor = (of: readonly Fill[]): number => Number(calibrationFrom(of)?.factor);

describe('how full the moulds really got', () => {
  it('is true volume over computed volume: by hand', () => {
    // 1400 cm³ in the moulds over 1386 cm³ expected.
    expect(factor([fill(['90', '85'])])).toBeCloseTo(1400 / 1386, 9);
  });

  it('a mould that was weighed as well says its density by itself, whatever stayed in the pot', () => {
    const [first, second] = fill(['90', '']).moulds;
    if (first === undefined || second === undefined) throw new Error('two moulds');
    const weighed = fill(['90', ''], { moulds: [{ ...first, grams: '780' }, second] });
    // 720 cm³ hold 780 g; computed were 1.1 g/cm³, 709.1 cm³.
    expect(factor([weighed])).toBeCloseTo(720 / (780 / 1.1), 9);
  });

  it('the mean of several, and the doubt about the next batch: wide with one, their own scatter with many', () => {
    const one = calibrationFrom([fill(['90', '85'])]);
    expect(one).toMatchObject({ batches: 1, from: [{ mark: '26-1' }] });
    expect(Number(one?.u)).toBeCloseTo(0.03 * Math.SQRT2, 9);
    const many = Array.from({ length: 20 }, (_, at) => fill(at % 2 === 0 ? ['90', '85'] : ['91', '86']));
    const all = calibrationFrom(many);
    expect(all?.batches).toBe(20);
    // Two groups 16 cm³ of 1386 apart, ten of each: 0.0058 either side of the mean, and one prior of 0.03 among twenty.
    const variance = (0.03 ** 2 + 20 * (8 / 1386) ** 2) / 20;
    expect(Number(all?.u)).toBeCloseTo(Math.sqrt(variance * (1 + 1 / 20)), 9);
  });

  it.each<[string, Fill, string, string]>([
    ['nobody looked', fill(['90', '']), 'missing', 'moulds[1].full'],
    ['more than full', fill(['90', '120']), 'too-large', 'moulds[1].full'],
    ['text', fill(['nearly', '90']), 'not-a-number', 'moulds[0].full'],
    ['no volume a batter has', fill(['40', '40']), 'out-of-range', 'moulds'],
    ['no mould', fill(['90', '90'], { moulds: [] }), 'missing', 'moulds'],
  ])('teaches nothing when %s, and says why', (_name, of, code, path) => {
    expect(checkFill(of)).toContainEqual(expect.objectContaining({ code, path }));
    expect(calibrationFrom([of])).toBeNull();
    expect(calibrationFrom([of, fill(['90', '85'])])?.batches).toBe(1);
  });

  it('kept on the shelf it corrects the volume of the next plan, which says so with its workings', () => {
    const shelf = withPut(
      EMPTY_SHELF,
      { noun: 'fill', id: 'b1', version: 1, document: fill(['90', '85']) as never, note: '' },
      as<PersonId>('maker'),
      1,
    );
    const { calibration } = contextOf(shelf, []);
    const [plain, learnt] = [planned(formula()), planned(formula(), workshop({ calibration }))];
    expect((learnt.sizing?.batter.value ?? 0) / (plain.sizing?.batter.value ?? 1)).toBeCloseTo(1400 / 1386, 9);
    expect(learnt.sizing?.calibration?.batches).toBe(1);
    const workings = learnt.derivations.find(({ id }) => id === 'calibration');
    expect(workings?.inputs).toEqual([expect.objectContaining({ name: 'batch 26-1', grade: 'typed' })]);
    expect(learnt.derivations.find(({ id }) => id === 'batter-volume')?.inputs.map(({ derivation }) => derivation)).toContain(
      'calibration',
    );
  });
});
