import { expect, it } from 'vitest';
import { barMass } from '../../../app/bars/_parts/bar-mass';

const shown = (mass: 'g' | 'oz' | 'lb') => barMass({ locale: 'en', mass, temperature: 'C' });

it('a bar is told in grams, and in ounces to who chose ounces or pounds', () => {
  expect((['g', 'oz', 'lb'] as const).map((mass) => [shown(mass).unit, shown(mass).text(113.4)])).toEqual([
    ['g', '113.4'],
    ['oz', '4.00'],
    ['oz', '4.00'],
  ]);
  expect(shown('oz').of(28.349523125)).toBeCloseTo(1, 12);
  expect([5, 1, 0.5, 0.2, 0.1, 0.05].map(shown('oz').places)).toEqual([0, 0, 1, 1, 1, 2]);
});
