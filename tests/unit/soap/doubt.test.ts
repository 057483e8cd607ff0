import { describe, expect, it } from 'vitest';
import { chanceBelowZero, flat, normal, triangle, type Part } from '#lib/soap/doubt';

const one = (weight: number): readonly Part[] => [{ weight, shape: { kind: 'normal' } }];

describe('the chance that a sum lies below zero', () => {
  it('of one normal (NIST e-Handbook 1.3.6.7.1: 0.84134, 0.97725; and 0.025 below −1.959964)', () => {
    expect(chanceBelowZero(-1, one(1))).toBeCloseTo(0.84134, 5);
    expect(chanceBelowZero(-2, one(1))).toBeCloseTo(0.97725, 5);
    expect(chanceBelowZero(1.959964, one(1))).toBeCloseTo(0.025, 6);
    expect(chanceBelowZero(1.959964 * 7, one(-7))).toBeCloseTo(0.025, 6);
  });

  it.each([
    ['symmetric', 180, 190, 200, 1e-4],
    ['leaning', 230, 247, 254, 1e-4],
    ['with its mode at an end', 180, 180, 200, 3e-3],
  ])('of one triangle, %s, by its own area', (_name, a, c, b, close) => {
    const { mean, u, shape } = triangle(a, c, b);
    for (const x of [a + 0.01 * (b - a), a + 0.2 * (b - a), c, b - 0.1 * (b - a), b - 0.01 * (b - a)]) {
      const exact = x <= c && c > a ? (x - a) ** 2 / ((b - a) * (c - a)) : 1 - (b - x) ** 2 / ((b - a) * (b - c));
      expect(Math.abs(chanceBelowZero(mean - x, [{ weight: u, shape }]) - exact)).toBeLessThan(close);
      // Turned round, the other side.
      expect(Math.abs(chanceBelowZero(x - mean, [{ weight: -u, shape }]) - (1 - exact))).toBeLessThan(close);
    }
  });

  it('of two flats is a triangle (their convolution)', () => {
    const { u, shape } = flat(0, 1);
    const twice = [
      { weight: u, shape },
      { weight: u, shape },
    ];
    expect(chanceBelowZero(1, twice)).toBeCloseTo(0.125, 4);
    expect(chanceBelowZero(0, twice)).toBeCloseTo(0.5, 9);
  });

  it('of nothing in doubt is sure', () => {
    expect(chanceBelowZero(0.1, [])).toBe(0);
    expect(chanceBelowZero(-0.1, [])).toBe(1);
    expect(chanceBelowZero(11, one(1))).toBe(0);
  });

  it('a triangle has GUM 4.3.9’s standard uncertainty, and a flat half its width over root three', () => {
    expect(triangle(-10, 0, 10).u).toBeCloseTo(10 / Math.sqrt(6), 12);
    expect(flat(5, 3).u).toBeCloseTo(Math.sqrt(3), 12);
    expect(triangle(4, 4, 4)).toEqual(normal(4, 0));
    expect(() => triangle(1, 4, 3)).toThrow(RangeError);
  });
});
