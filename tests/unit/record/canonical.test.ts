import { describe, expect, it } from 'vitest';
import { canonical, NotCanonical } from '#lib/record/canonical';
import type { Json } from '#lib/record/journal';

/** What the types keep out, for values that come from elsewhere. */
const from = (value: unknown): Json => value as Json;

describe('canonical', () => {
  it('takes the integers up to the greatest safe one', () => {
    expect(canonical([Number.MAX_SAFE_INTEGER, Number.MIN_SAFE_INTEGER])).toBe('[9007199254740991,-9007199254740991]');
    expect(() => canonical(Number.MAX_SAFE_INTEGER + 1)).toThrow(NotCanonical);
  });

  it('writes every control character and leaves the rest as it is', () => {
    expect(canonical('\b\t\n\f\r"\\\u0000\u001f\u007f/ü')).toBe('"\\b\\t\\n\\f\\r\\"\\\\\\u0000\\u001f\u007f/ü"');
  });

  it.each([
    ['undefined', { a: undefined }, 'a'],
    ['a hole', { a: [1, , 3] }, 'a[1]'], // eslint-disable-line no-sparse-arrays
    ['a fraction', { a: { b: [0.5] } }, 'a.b[0]'],
    ['NaN', { a: Number.NaN }, 'a'],
    ['a bigint', { a: 1n }, 'a'],
    ['a function', { a: () => 1 }, 'a'],
    ['a date', { a: new Date(0) }, 'a'],
    ['a map', { a: new Map() }, 'a'],
    ['bytes', { a: new Uint8Array(1) }, 'a'],
    ['a lone high surrogate', { a: '\ud800x' }, 'a'],
    ['a lone low surrogate', { a: 'x\udc00' }, 'a'],
    ['a lone surrogate in a key', { 'a\ud800': 1 }, 'a\ud800'],
  ])('refuses %s and says where', (_, value, path) => {
    let thrown: unknown = null;
    try {
      canonical(from(value));
    } catch (cause) {
      thrown = cause;
    }
    expect(thrown).toBeInstanceOf(NotCanonical);
    expect((thrown as NotCanonical).path).toBe(path);
  });

  it('does not ask a value how it wants to be written', () => {
    expect(() => canonical(from({ toJSON: () => 'other' }))).toThrow(NotCanonical);
  });

  it('takes objects without a prototype', () => {
    expect(canonical(from(Object.assign(Object.create(null), { b: 1, a: 2 })))).toBe('{"a":2,"b":1}');
  });
});
