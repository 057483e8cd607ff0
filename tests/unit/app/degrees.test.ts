import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { NANOGRAMS_PER } from '#lib/units/mass';
import { celsiusOf, degreesOf } from '../../../app/formulas/_parts/degrees';
import type { ReviewLine } from '#lib/work/batch/index';
import { massCell, showIn, targetStep } from '#lib/words/quantities';
import { stepsOf } from '#lib/words/review/line';
import { plannedText, toleranceText } from '../../../app/formulas/_parts/mass';

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

  it('that was worked out is told to a twentieth of itself, not to the milligram', () => {
    expect(toleranceText(3503, display('g'))).toBe('3.5');
    expect(toleranceText(343, display('g'))).toBe('0.34');
    expect(toleranceText(127, display('g'))).toBe('0.127');
  });
});

const inOunces = (text: string): number => {
  const [, pounds, ounces] = /^(?:(\d+) lb )?([\d.]+)(?: oz)?$/.exec(text) ?? [];
  return 16 * Number(pounds ?? 0) + Number(ounces);
};

describe('a line of a record', () => {
  it('in ounces has decimals enough to tell its tolerance, and what was weighed against it', () => {
    const line = { planned: { target: 12_000 }, target: 12_000, tolerance: 100, contributions: [] } as unknown as ReviewLine;
    const steps = stepsOf(line, display('oz'));
    const text = (milligrams: number, step: number) => massCell(milligrams, step, display('oz'), 0).text;
    expect(text(100, steps.tolerance)).toBe('0.0035');
    // 0.05 g off is half of the tolerance.
    expect(text(50, steps.weighed)).toBe('0.002');
    expect(showIn(display('oz')).tolerance(100)).toBe('0.0035 oz');
    expect(stepsOf(line, display('g'))).toEqual({ planned: 100, target: 100, weighed: 100, tolerance: 100 });
  });
});

describe('a weight to be poured', () => {
  it('in ounces or pounds is rounded by no more than a quarter of its tolerance', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 100, max: 3_000_000 }),
        // The fourth decimal is the last: half of it is 1.4 mg.
        fc.integer({ min: 6, max: 20_000 }),
        fc.constantFrom('oz' as const, 'lb' as const),
        (target, tolerance, mass) => {
          const shown = inOunces(plannedText(target, tolerance, display(mass)));
          expect(Math.abs((shown * Number(NANOGRAMS_PER.oz)) / 1e6 - target)).toBeLessThanOrEqual(tolerance / 4 + 0.01);
        },
      ),
    );
  });

  it('has one digit more where the tolerance is small, none where it is not, and grams no finer than is poured to', () => {
    expect(plannedText(7900, 100, display('oz'))).toBe('0.279');
    expect(plannedText(7900, 2000, display('oz'))).toBe('0.28');
    // Of a figure that is no whole tenth either.
    expect(plannedText(117_646, 1100, display('oz'))).toBe('4.15');
    expect(plannedText(7900, 100, display('g'))).toBe('7.9');
    expect(plannedText(255_318, 2500, display('g'))).toBe('255.3');
    expect(plannedText(143_560, 400, display('g'))).toBe('143.6');
    expect(plannedText(3014, 60, display('g'))).toBe('3.01');
    expect(plannedText(3014, 6, display('g'))).toBe('3.014');
    expect(targetStep(100, 100, display('g'))).toBe(100);
  });
});
