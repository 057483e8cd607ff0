import { describe, expect, it } from 'vitest';
import type { Display } from '#lib/units/display';
import {
  decimalMark,
  differenceText,
  figureText,
  massDecimals,
  massFigure,
  massRange,
  massText,
  numberText,
  temperatureFigure,
  temperatureText,
} from '#lib/units/format';

const show = (part: Partial<Display> = {}): Display => ({ locale: 'en-GB', mass: 'g', temperature: 'C', ...part });

describe('mass as a person reads it', () => {
  it('keeps as many digits as the scale has', () => {
    expect(massText(412_600, show(), 100)).toBe('412.6 g');
    expect(massText(12_310, show(), 10)).toBe('12.31 g');
    expect(massText(1_250_000, show(), 1000)).toBe('1250 g');
    expect(massText(412_600, show())).toBe('412.6 g');
  });

  it('rounds the edges of a range into it, never out of it', () => {
    expect(massRange(397_000, 403_000, show(), 100)).toEqual(['397.0 g', '403.0 g']);
    // 14.0037 and 14.2153 oz.
    expect(massRange(397_000, 403_000, show({ mass: 'oz' }), 100)).toEqual(['14.01 oz', '14.21 oz']);
    expect(massRange(99_333, 100_667, show(), 100)).toEqual(['99.4 g', '100.6 g']);
    expect(massRange(499_000, 501_500, show({ mass: 'lb' }), 100)).toEqual(['1 lb 1.61 oz', '1 lb 1.68 oz']);
  });

  it('uses the decimal mark of the locale', () => {
    expect(massText(412_600, show({ locale: 'de-DE' }), 100)).toBe('412,6 g');
    expect(massFigure(412_600, show({ locale: 'fr-FR' }), 100).mark).toBe(',');
    expect(decimalMark('sv-SE')).toBe(',');
    expect(decimalMark('en-US')).toBe('.');
  });

  it('shows Latin digits in every locale, for the fixed slots of the large number', () => {
    expect(massFigure(412_600, show({ locale: 'ar-EG' }), 100)).toMatchObject({ whole: '412', fraction: '6' });
  });

  it('never groups a weight: 1,250 would be two numbers', () => {
    expect(massText(1_250_500, show(), 100)).toBe('1250.5 g');
  });

  it('writes a true minus, and none on what rounds to zero', () => {
    expect(massText(-12_400, show(), 100)).toBe('−12.4 g');
    expect(massText(-40, show(), 100)).toBe('0.0 g');
    expect(figureText(massFigure(12_400, show(), 100, 'both'))).toBe('+12.4 g');
    expect(figureText(massFigure(-12_400, show(), 100, 'none'))).toBe('12.4 g');
  });

  // 1 oz = 28.349523125 g, 1 lb = 453.59237 g (NIST SP 811, App. B.8).
  it('converts to avoirdupois ounces and pounds', () => {
    expect(massText(28_350, show({ mass: 'oz' }), 100)).toBe('1.00 oz');
    expect(massText(520_000, show({ mass: 'oz' }), 100)).toBe('18.34 oz');
    expect(massText(520_000, show({ mass: 'lb' }), 100)).toBe('1 lb 2.34 oz');
    expect(massText(453_592, show({ mass: 'lb' }), 100)).toBe('1 lb 0.00 oz');
    expect(massText(-520_000, show({ mass: 'lb' }), 100)).toBe('−1 lb 2.34 oz');
  });

  it('never shows sixteen ounces beside a pound', () => {
    for (let mass = 453_000; mass < 454_500; mass += 7) {
      const { whole, unit, rest } = massFigure(mass, show({ mass: 'lb' }), 100);
      if (unit === 'oz') expect(Number(whole)).toBeLessThan(16);
      else expect(Number(rest?.whole)).toBeLessThan(16);
    }
  });

  it('gives ounces no finer last digit than three divisions of the scale', () => {
    expect([massDecimals(1000, 'oz'), massDecimals(100, 'oz'), massDecimals(10, 'oz')]).toEqual([1, 2, 3]);
  });
});

describe('temperatures and differences', () => {
  it('converts a temperature by offset and factor, a difference by factor only', () => {
    expect(temperatureText(45_300, show())).toBe('45.3 °C');
    expect(temperatureText(45_300, show({ temperature: 'F' }))).toBe('113.5 °F');
    expect(differenceText(6_000, show({ temperature: 'F' }))).toBe('10.8 °F');
    expect(differenceText(6_000, show({ locale: 'nb-NO' }))).toBe('6,0 °C');
    expect(temperatureFigure(-4_000, show()).sign).toBe('−');
  });
});

it('groups plain counts by the locale', () => {
  expect(numberText(12_345, 'en-GB')).toBe('12,345');
});
