import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { massOfDecimal, readNumber, temperatureOfDecimal } from '#lib/units/parse';

const number = (decimal: string) => ({ kind: 'number', decimal });

describe('a typed number', () => {
  it.each([
    ['412.6', '412.6'],
    ['412,6', '412.6'],
    ['1250', '1250'],
    ['1250.5', '1250.5'],
    ['1,25', '1.25'],
    ['0,250', '0.250'],
    ['0.250', '0.250'],
    ['.5', '0.5'],
    ['1234,567', '1234.567'],
    ['1 250', '1250'],
    ['1\u202f250,5', '1250.5'],
    ['1’250.5', '1250.5'],
    ['1,250.5', '1250.5'],
    ['1.250,5', '1250.5'],
    ['1,250,000', '1250000'],
    ['−12.5', '-12.5'],
  ])('%s is %s', (typed, decimal) => {
    expect(readNumber(typed)).toEqual(number(decimal));
  });

  it.each([
    ['1,250', '1.250', '1250'],
    ['1.250', '1.250', '1250'],
    ['12,500', '12.500', '12500'],
    ['999.999', '999.999', '999999'],
    ['-1,250', '-1.250', '-1250'],
  ])('%s could be %s or %s: it is asked, not taken', (typed, decimal, grouped) => {
    expect(readNumber(typed)).toEqual({ kind: 'ambiguous', readings: [decimal, grouped] });
  });

  it.each(['', '-', '12,', '12.', '1,250.'])('%s is unfinished', (typed) => {
    expect(readNumber(typed)).toEqual({ kind: 'unfinished' });
  });

  it.each(['12g', 'abc', '1.2.3', '1,25,000', '1..2', '1.250,5,5', '12 50', '1e5', ',', '9'.repeat(30)])('%s is no number', (typed) => {
    expect(readNumber(typed).kind).toBe('invalid');
  });

  it('never throws and never yields anything but a plain decimal', () => {
    const alphabet = fc.constantFrom(...Array.from('0123456789.,- \u00a0’x'));
    fc.assert(
      fc.property(fc.string({ unit: alphabet, maxLength: 14 }), (typed) => {
        const read = readNumber(typed);
        if (read.kind === 'number') expect(read.decimal).toMatch(/^-?\d+(\.\d+)?$/);
        if (read.kind === 'ambiguous') for (const decimal of read.readings) expect(decimal).toMatch(/^-?\d+(\.\d+)?$/);
      }),
    );
  });
});

describe('a typed quantity', () => {
  it('is exact in milligrams and above zero', () => {
    expect(massOfDecimal('412.6', 'g')).toBe(412_600);
    // 1 lb = 453.59237 g (NIST SP 811, App. B.8), rounded once at the milligram.
    expect(massOfDecimal('1', 'lb')).toBe(453_592);
    expect(massOfDecimal('0', 'g')).toBeNull();
    expect(massOfDecimal('-3', 'g')).toBeNull();
  });

  it('is a temperature a vessel can have', () => {
    expect(temperatureOfDecimal('45.3', 'C')).toBe(45_300);
    expect(temperatureOfDecimal('113', 'F')).toBe(45_000);
    expect(temperatureOfDecimal('400', 'C')).toBeNull();
    expect(temperatureOfDecimal('x', 'C')).toBeNull();
  });
});
