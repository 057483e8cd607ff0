import { describe, expect, it } from 'vitest';
import { copyCard, readAmount } from '#lib/work/formula/index';
import type { Amount, Formula } from '#lib/work/formula/index';
import { entry, formula, mass, share, WORKSHOP } from '#tests/support/formula';

const amount = (text: string, pours = false): Amount | string => {
  const read = readAmount(text, pours);
  return read.kind === 'amount' ? read.amount : read.kind === 'ask' ? read.why : read.code;
};
const oz = (value: string): Amount => ({ kind: 'mass', value, unit: 'oz' });

describe('an amount as it stands on a card', () => {
  it.each<[string, Amount]>([
    ['250 g', mass('250')],
    ['250g', mass('250')],
    ['1.5 kg', mass('1.5', 'kg')],
    ['1,5 kg', mass('1.5', 'kg')],
    ['1/2 lb', mass('0.5', 'lb')],
    ['1 1/2 pounds', mass('1.5', 'lb')],
    ['1½ lb', mass('1.5', 'lb')],
    ['¾ oz', oz('0.75')],
    ['1-1/2 oz', oz('1.5')],
    ['2 lb 3 1/4 oz', oz('35.25')],
    ['2 lb. 3¼ oz.', oz('35.25')],
    ['2 lb and 3 oz', oz('35')],
    ['8 oz', oz('8')],
    ['250 ml', { kind: 'volume', value: '250', unit: 'ml' }],
    ['1.2 l', { kind: 'volume', value: '1200', unit: 'ml' }],
    ['8 us fl oz', { kind: 'volume', value: '8', unit: 'us-fl-oz' }],
    ['8 imperial fluid ounces', { kind: 'volume', value: '8', unit: 'imperial-fl-oz' }],
    ['5 %', share('5')],
    ['3 tbsp', { kind: 'unweighed', text: '3 tbsp' }],
    ['1 1/2 tsp of clay', { kind: 'unweighed', text: '1 1/2 tsp of clay' }],
    ['a few drops', { kind: 'unweighed', text: 'a few drops' }],
    ['Pinch', { kind: 'unweighed', text: 'Pinch' }],
  ])('%s', (text, expected) => {
    expect(amount(text)).toEqual(expected);
  });

  it('asks whether ounces of what pours are weight or fluid, and keeps the question until somebody says', () => {
    const read = readAmount('8 oz', true);
    expect(read).toMatchObject({ kind: 'ask', why: 'weight-or-fluid', keep: { kind: 'ounces-unclear', value: '8' } });
    expect(read.kind === 'ask' ? read.choices.length : 0).toBe(3);
    expect(amount('8 fl oz')).toBe('which-fluid-ounce');
    // Nobody measures fluid in pounds.
    expect(amount('1 lb 8 oz', true)).toEqual(oz('24'));
  });

  it('old cards write grains as new ones grams: asked', () => {
    const read = readAmount('5 gr', false);
    // A grain is 64.79891 mg by definition.
    expect(read).toMatchObject({ kind: 'ask', why: 'gram-or-grain', choices: [mass('5'), mass('0.32399455')] });
  });

  it.each([
    ['', 'missing'],
    ['lots', 'not-a-number'],
    ['12', 'missing'],
    ['12 stone', 'unknown-unit'],
    ['-3 oz', 'negative'],
    ['0 g', 'not-above-zero'],
    ['1/0 lb', 'not-a-number'],
    ['3 oz 2 lb', 'unknown-unit'],
    ['1 lb 2 oz 3 g', 'unknown-unit'],
  ])('"%s" is %s', (text, code) => {
    expect(amount(text)).toBe(code);
  });

  it('asks which number "1,250 g" is', () => {
    expect(amount('1,250 g')).toBe('which-number');
  });
});

const card = (given: Partial<Formula> = {}): Formula =>
  formula({
    entries: [
      entry('coconut', 'fat', 'coconut', oz('10.6')),
      entry('olive', 'fat', 'olive', { kind: 'mass', value: '1.55', unit: 'lb' }),
      entry('soda', 'alkali', 'sodium-hydroxide', oz('5.1'), { lot: 'lot-soda-06' }),
      entry('water', 'liquid', 'water', oz('11')),
    ],
    wishes: { superfat: null, lye: null },
    ...given,
  });

const without = (id: string): Formula => card({ entries: card().entries.map((one) => (one.id === id ? { ...one, amount: null } : one)) });

describe('a card copied', () => {
  const fats = (10.6 * 257 + 1.55 * 16 * 190) * 28.349523125;
  const moles = fats / 1000 / 56.1053;
  const real = 1 - (5.1 * 28.349523125 * 0.99) / 39.99677 / moles;

  it('gives the superfat its own weights give, whatever it claims', () => {
    const answer = copyCard(card({ wishes: { superfat: '8', lye: null } }), WORKSHOP);
    expect(answer.superfat?.working).toBeCloseTo(real, 6);
    expect(answer.claimed).toBe(0.08);
    expect(answer.lyeConcentration).toBeCloseTo((5.1 * 0.99) / 16.1, 9);
    expect(answer.open).toEqual([]);
    expect(answer.derivations.find(({ id }) => id === 'superfat')?.value).toBeCloseTo(100 * real, 4);
  });

  it('knows its superfat without its water, but not its lye', () => {
    const answer = copyCard(without('water'), WORKSHOP);
    expect(answer.superfat?.working).toBeCloseTo(real, 6);
    expect([answer.lyeConcentration, answer.batter]).toEqual([null, null]);
    expect(answer.open).toContainEqual(expect.objectContaining({ code: 'missing', path: 'entries[3].amount' }));
  });

  it('has no lye where no liquid stands on it at all', () => {
    const dry = card({ entries: card().entries.filter(({ id }) => id !== 'water') });
    expect(copyCard(dry, WORKSHOP)).toMatchObject({ superfat: { working: expect.closeTo(real, 6) as unknown }, lyeConcentration: null });
  });

  it.each(['olive', 'soda'])('says nothing of superfat while %s is open', (id) => {
    const answer = copyCard(without(id), WORKSHOP);
    expect(answer.superfat).toBeNull();
    expect(answer.open.length).toBeGreaterThan(0);
  });

  it('says a lye-heavy card is one', () => {
    const heavy = card({ entries: card().entries.map((one) => (one.id === 'soda' ? { ...one, amount: oz('6') } : one)) });
    expect(copyCard(heavy, WORKSHOP).superfat?.working).toBeLessThan(0);
  });

  it('keeps spoons as written and leaves them out', () => {
    const spoonful: Amount = { kind: 'unweighed', text: '1 tbsp' };
    for (const one of [
      entry('potash', 'alkali', 'potassium-hydroxide', spoonful),
      entry('milk', 'liquid', 'goat-milk', spoonful),
      entry('citric', 'acid', 'citric-anhydrous-acid', spoonful),
      entry('shea', 'fat', 'shea', spoonful),
    ]) {
      const answer = copyCard(card({ entries: [...card().entries, one] }), WORKSHOP);
      expect(answer.superfat, one.id).toBeNull();
      expect(answer.lyeConcentration, one.id).toBeNull();
      // What does not hang on it is known all the same.
      if (one.part !== 'fat') expect(answer.fats, one.id).toBeGreaterThan(0);
      expect(
        answer.open.map(({ code }) => code),
        one.id,
      ).toContain('unweighed-counts');
    }
    const spoons = card({ entries: [...card().entries, entry('oat', 'extra', 'ground-oats', { kind: 'unweighed', text: '2 tbsp' })] });
    const answer = copyCard(spoons, WORKSHOP);
    expect(answer.unweighed).toEqual([{ entry: 'oat', text: '2 tbsp' }]);
    expect(answer.superfat?.working).toBeCloseTo(real, 6);
  });

  it('weighs fluid ounces by the density of what they are of', () => {
    const fluid = card({
      entries: card().entries.map((one) =>
        one.id === 'olive' ? { ...one, amount: { kind: 'volume', value: '1000', unit: 'ml' } as const } : one,
      ),
    });
    const olive = WORKSHOP.materials.find(({ id }) => id === 'olive');
    const density = olive?.kind === 'fat' ? Number(olive.density.value) : Number.NaN;
    expect(copyCard(fluid, WORKSHOP).fats).toBeCloseTo(10.6 * 28.349523125 + 1000 * density, 6);
  });

  it('is no crash for an empty one', () => {
    expect(copyCard(card({ entries: [] }), WORKSHOP)).toMatchObject({ superfat: null, fats: null });
  });
});
