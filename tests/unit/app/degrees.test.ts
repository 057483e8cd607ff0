import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { celsiusOf, degreesOf } from '../../../app/formulas/_parts/degrees';
import { toleranceText } from '../../../app/formulas/_parts/mass';

describe('temperatures as a person types them', () => {
  it.each([
    ['86', 'point', '30'],
    ['122', 'point', '50'],
    ['-4', 'point', '-20'],
    ['10,8', 'difference', '6'],
    ['100', 'point', '37.777778'],
  ] as const)('%s °F, a %s, is kept as %s', (typed, what, kept) => {
    expect(celsiusOf(typed, 'F', what)).toBe(kept);
  });

  it('what is no number yet is kept as typed, and degrees Celsius to the digit', () => {
    for (const text of ['', 'hot', '1,250', '1e9']) expect(celsiusOf(text, 'F', 'point')).toBe(text);
    expect(celsiusOf('36,50', 'C', 'point')).toBe('36,50');
    expect(degreesOf('36,50', 'C', 'point')).toBe('36,50');
  });

  it('come back as they were typed', () => {
    fc.assert(
      fc.property(fc.integer({ min: -400, max: 3000 }), fc.constantFrom('point' as const, 'difference' as const), (tenths, what) => {
        const typed = String(tenths / 10);
        expect(degreesOf(celsiusOf(typed, 'F', what), 'F', what)).toBe(typed);
      }),
    );
  });
});

const display = (mass: 'g' | 'oz' | 'lb') => ({ locale: 'en-GB', mass, temperature: 'C' }) as const;

describe('a tolerance', () => {
  it.each([2, 10, 50, 100, 340, 5800])('of %i mg is never shown as none, and in ounces to a twentieth of itself', (milligrams) => {
    const ounces = Number.parseFloat(toleranceText(milligrams, display('oz')));
    expect(ounces).toBeGreaterThan(0);
    // The fourth decimal is the last: 2.8 mg.
    expect(Math.abs(ounces - milligrams / 28_349.523)).toBeLessThanOrEqual(Math.max(0.000_05, (0.08 * milligrams) / 28_349.523));
    expect(Number.parseFloat(toleranceText(milligrams, display('lb')))).toBeGreaterThan(0);
    expect(toleranceText(milligrams, display('g'))).toBe(
      (milligrams / 1000).toFixed(milligrams % 100 === 0 ? 1 : milligrams % 10 === 0 ? 2 : 3),
    );
  });
});
