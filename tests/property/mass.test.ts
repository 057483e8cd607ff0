import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import type { MassUnit } from '#lib/units/mass';
import { massOfDigits, massOfText, stepOfDecimals } from '#lib/units/mass-text';
import { exactMilligrams } from '#tests/support/exact-mass';

const UNITS: readonly MassUnit[] = ['mg', 'g', 'kg', 'oz', 'lb'];
const unit = fc.constantFrom(...UNITS);

const decimal = fc
  .tuple(fc.integer({ min: 0, max: 999_999_999_999_999 }), fc.integer({ min: 0, max: 15 }), fc.integer({ min: 0, max: 15 }))
  .map(([number, keep, decimals]) => {
    const digits = String(number).slice(0, Math.max(1, keep)).padStart(decimals, '0').slice(0, 15);
    return { whole: digits.slice(0, digits.length - decimals), fraction: digits.slice(digits.length - decimals) };
  });

describe('mass of a decimal text', () => {
  it('is the exact one, rounded once, for any digits, point and unit', () => {
    fc.assert(
      fc.property(decimal, unit, fc.constantFrom('', '+', '-'), ({ whole, fraction }, unit, sign) => {
        const text = fraction === '' ? whole : `${whole}.${fraction}`;
        const exact = exactMilligrams(text, unit);
        const stated = massOfText(sign + text, unit);
        if (exact > 9_000_000_000) expect(stated).toBeNull();
        else {
          const step = Math.max(1, exactMilligrams(`0.${'1'.padStart(fraction.length, '0')}`, unit));
          expect(stated).toEqual({
            mass: sign === '-' ? 0 - exact : exact,
            step: fraction === '' ? Math.max(1, exactMilligrams('1', unit)) : step,
          });
        }
      }),
      { numRuns: 5000 },
    );
  });

  it.each([
    // Halves of a milligram go away from zero, a hair below does not; rounding twice would take the second one up.
    ['0.0005', 'g', 1],
    ['0.00049999999999', 'g', 0],
    ['-0.0005', 'g', -1],
    ['-0.0004', 'g', 0],
    ['1', 'lb', 453_592],
    ['1.', 'oz', 28_350],
    ['.5', 'oz', 14_175],
    ['19.8416', 'lb', 8_999_998],
    ['9000', 'kg', 9_000_000_000],
  ] as const)('%s %s', (text, unit, milligrams) => {
    expect(massOfText(text, unit)?.mass).toBe(milligrams);
  });

  it.each(['', '.', '-', 'Err', '1.2.3', '1 2', '--1', '1e3', '9000.001', '1234567890123456', 'NaN', 'Infinity', '0x10', '１'])(
    'refuses "%s"',
    (text) => {
      expect(massOfText(text, 'kg')).toBeNull();
    },
  );

  it('agrees with itself from digits', () => {
    expect(massOfDigits(1250, 3, 'kg')).toBe(1_250_000);
    expect(stepOfDecimals(3, 'kg', 5)).toBe(5000);
    expect(stepOfDecimals(2, 'mg')).toBe(1);
  });
});
