import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { boilingAt, boilingPoint, pressureAt } from '#lib/measure/probe/boiling';
import { celsiusOfNtc, ntcLaw } from '#lib/measure/probe/ntc';
import { celsiusOfOneWire } from '#lib/measure/probe/one-wire';
import { celsiusOfPt100, ohmsOfPt100 } from '#lib/measure/probe/pt100';
import { celsiusOfTypeK, millivoltsOfTypeK } from '#lib/measure/probe/type-k';

describe('what a sensor measured, turned into a temperature', () => {
  it('comes back to a thousandth from the standard’s own function, platinum', () => {
    fc.assert(
      fc.property(fc.double({ min: -60, max: 260, noNaN: true }), (celsius) => {
        const back = celsiusOfPt100(ohmsOfPt100(celsius));
        // At the very ends a last binary digit may fall outside.
        if (back === null) expect(Math.min(celsius + 60, 260 - celsius)).toBeLessThan(1e-6);
        else expect(Math.abs(back - celsius)).toBeLessThan(1e-3);
      }),
    );
  });

  it('comes back to a thousandth for a pair of any cold junction', () => {
    fc.assert(
      fc.property(fc.double({ min: -59, max: 399, noNaN: true }), fc.double({ min: -20, max: 85, noNaN: true }), (celsius, junction) => {
        const back = celsiusOfTypeK(millivoltsOfTypeK(celsius) - millivoltsOfTypeK(junction), junction);
        expect(Math.abs((back ?? Number.NaN) - celsius)).toBeLessThan(1e-3);
      }),
    );
  });

  it('of a one-wire part is a sixteenth of a degree to the bit, or nothing', () => {
    for (let word = 0; word <= 0xffff; word += 1) {
      const signed = (word << 16) >> 16;
      const celsius = celsiusOfOneWire(word);
      if (signed >= -55 * 16 && signed <= 125 * 16) expect(celsius).toBe(signed / 16);
      else expect(celsius).toBeNull();
    }
    for (const word of [-1, 0x1_0000, 0.5, Number.NaN]) expect(celsiusOfOneWire(word)).toBeNull();
  });

  it('of a thermistor follows the law through its own three points', () => {
    const law = { a: 1.129148e-3, b: 2.34125e-4, c: 8.76741e-8 };
    const ohmsAt = (celsius: number): number => {
      let [low, high] = [10, 10_000_000];
      while (high / low > 1 + 1e-13) {
        const middle = Math.sqrt(low * high);
        if ((celsiusOfNtc(middle, law) ?? -60) > celsius) low = middle;
        else high = middle;
      }
      return Math.sqrt(low * high);
    };
    const again = ntcLaw([
      [ohmsAt(60), 60],
      [ohmsAt(0), 0],
      [ohmsAt(25), 25],
    ]);
    for (const celsius of [0, 10, 25, 43, 60, 90]) expect(celsiusOfNtc(ohmsAt(celsius), again)).toBeCloseTo(celsius, 4);
    expect(() =>
      ntcLaw([
        [1000, 0],
        [2000, 20],
        [500, 40],
      ]),
    ).toThrow(RangeError);
  });
});

describe('where water boils', () => {
  it('falls with altitude, and with every pascal', () => {
    fc.assert(
      fc.property(fc.integer({ min: -400, max: 5_990 }), (metres) => {
        expect(boilingPoint(metres + 10).celsius).toBeLessThan(boilingPoint(metres).celsius);
        expect(boilingAt(pressureAt(metres))).toBe(boilingPoint(metres).celsius);
        expect(boilingPoint(metres).within).toBeGreaterThan(0.4);
      }),
    );
  });

  it('is asked for on this earth only', () => {
    for (const metres of [-401, 6_001, Number.NaN]) expect(() => boilingPoint(metres)).toThrow(RangeError);
    for (const pascals of [0, 19_999, 200_001, Number.NaN]) expect(() => boilingAt(pascals)).toThrow(RangeError);
  });
});
