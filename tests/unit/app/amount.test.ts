import { describe, expect, it } from 'vitest';
import { SAMPLE_WORKSHOP } from '#lib/work/formula/sample/workshop';
import { planOf } from '#lib/work/formula/index';
import type { Problem } from '#lib/work/formula/index';
import { problemText } from '../../../app/_ui/problem-messages';
import { amountIn, measureOf, typedAmount } from '../../../app/formulas/_parts/amount';
import { withBlend, withoutBlend } from '../../../app/formulas/_parts/blends';
import { isPlaced } from '../../../app/formulas/_parts/placed';
import { FIRST_FORMULA } from '#tests/support/first-formula';

describe('an amount as it is typed into a sheet', () => {
  it.each([
    ['40', 'percent', { kind: 'share', of: 'fats', percent: '40' }],
    ['40', 'g', { kind: 'mass', value: '40', unit: 'g' }],
    ['8', 'oz', { kind: 'mass', value: '8', unit: 'oz' }],
    ['8', 'us-fl-oz', { kind: 'volume', value: '8', unit: 'us-fl-oz' }],
    ['2 lb 3 oz', 'percent', { kind: 'mass', value: '35', unit: 'oz' }],
    ['1 1/2 lb', 'g', { kind: 'mass', value: '1.5', unit: 'lb' }],
    ['3 tbsp', 'g', { kind: 'unweighed', text: '3 tbsp' }],
    ['2.5 %', 'percent-batter', { kind: 'share', of: 'batter', percent: '2.5' }],
    ['', 'rest', { kind: 'rest' }],
  ] as const)('%s beside %s', (text, measure, amount) => {
    expect(typedAmount(text, measure, true)).toEqual({ amount, choices: [] });
  });

  it.each([
    ['500 g', { kind: 'mass', value: '500', unit: 'g' }],
    ['2 lb 3 oz', { kind: 'mass', value: '35', unit: 'oz' }],
    ['250 ml', { kind: 'volume', value: '250', unit: 'ml' }],
    ['1e9 kg', { kind: 'mass', value: '1e9 kg', unit: 'g' }],
    ['-5 g', { kind: 'mass', value: '-5 g', unit: 'g' }],
    ['2 heaped tbsp', { kind: 'unweighed', text: '2 heaped tbsp' }],
    ['50', { kind: 'unweighed', text: '50' }],
    ['a good handful', { kind: 'unweighed', text: 'a good handful' }],
  ] as const)('%s typed over spoons', (text, amount) => {
    expect(typedAmount(text, 'unweighed', true)).toEqual({ amount, choices: [] });
  });

  it.each([
    ['1 pint', 'unknown-unit'],
    ['3 gallons', 'unknown-unit'],
    ['1e9 kg', 'unknown-unit'],
    ['-5 g', 'negative'],
    ['ten', 'not-a-number'],
  ] as const)('%s is kept, and the plan says %s beside its field', (text, code) => {
    for (const measure of ['percent', 'g', 'unweighed'] as const) {
      const { amount } = typedAmount(text, measure, false);
      if (amount?.kind === 'unweighed') continue;
      const [olive, ...others] = FIRST_FORMULA.entries;
      const answer = planOf({ ...FIRST_FORMULA, entries: [{ ...(olive ?? never()), amount }, ...others] }, SAMPLE_WORKSHOP);
      const problems = answer.kind === 'problems' ? answer.problems : [];
      expect(problems, measure).toContainEqual(expect.objectContaining({ code, path: expect.stringMatching(/^entries\[0\]\.amount/) }));
      const said = problems.map(problemText).join(' ');
      expect(said).not.toBe('');
      if (code === 'unknown-unit') expect(said).toContain('Grams, kilograms, ounces');
    }
  });

  it('asks whether ounces of what pours are weight or fluid, and reckons with neither meanwhile', () => {
    const { amount, choices } = typedAmount('8 oz', 'percent', true);
    expect(amount).toEqual({ kind: 'ounces-unclear', value: '8' });
    expect(choices.map(measureOf)).toEqual(['oz', 'us-fl-oz', 'imperial-fl-oz']);
    expect(typedAmount('8 oz', 'percent', false).choices).toEqual([]);
  });

  it('asks which number "1,250" is', () => {
    const { choices } = typedAmount('1,250', 'g', false);
    expect(choices).toEqual([amountIn('1.25', 'g'), amountIn('1250', 'g')]);
  });

  it.each(['ten', '12 stone', '-3', '1e9', '1/0'])('keeps "%s" as it was typed, for the plan to say what is wrong', (text) => {
    expect(typedAmount(text, 'g', false)).toEqual({ amount: { kind: 'mass', value: text, unit: 'g' }, choices: [] });
  });
});

const scent = (id: string, percent: string) => ({
  ...(FIRST_FORMULA.entries[0] ?? never()),
  id,
  part: 'fragrance' as const,
  amount: { kind: 'share' as const, of: 'fats' as const, percent },
});

describe('fragrances in a blend', () => {
  const two = { ...FIRST_FORMULA, entries: [...FIRST_FORMULA.entries, scent('a', '60'), scent('b', '40')] };

  it('go in together and come out again as they were typed', () => {
    const blended = withBlend(two, 'Blend');
    expect(blended.blends).toEqual([
      { id: 'blend-1', name: 'Blend', amount: { kind: 'share', of: 'fats', percent: '100' }, entries: ['a', 'b'] },
    ]);
    expect(withoutBlend(blended, blended.blends[0] ?? never())).toEqual(two);
  });

  it('one alone is none', () => {
    const one = { ...two, entries: two.entries.slice(0, -1) };
    expect(withBlend(one, 'Blend')).toBe(one);
  });
});

const at = (path: string, code: Problem['code'] = 'missing', params: Problem['params'] = {}): Problem => ({ path, code, params });

describe('where a problem is said', () => {
  it.each([
    [at('entries[2].amount.percent'), true],
    [at('entries', 'shares-sum', { part: 'fats' }), true],
    [at('entries', 'not-computable'), false],
    [at('materials[sodium-hydroxide].purity', 'purity-missing'), true],
    [at('materials[beeswax].sv'), false],
    [at('moulds[0].fill'), true],
    [at('moulds[loaf].shape.depth'), false],
    [at('wishes.lye.percent'), true],
    [at('context.room'), false],
  ])('%o', (one, placed) => {
    expect(isPlaced(one, FIRST_FORMULA)).toBe(placed);
  });
});

const never = (): never => {
  throw new Error('the first formula has entries');
};
