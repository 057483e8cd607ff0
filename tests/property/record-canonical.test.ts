import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { canonical, NotCanonical } from '#lib/record/canonical';
import type { Json } from '#lib/record/journal';
import { readBack } from '#lib/record/read-back';
import { EMPTY, SALT_BYTES, seal } from '#lib/record/seal';

const text = fc.string({ unit: 'grapheme-composite', maxLength: 12 });
const json: fc.Arbitrary<Json> = fc.letrec<{ value: Json }>((tie) => ({
  value: fc.oneof(
    { maxDepth: 4, withCrossShrink: true },
    fc.constant(null),
    fc.boolean(),
    fc.maxSafeInteger(),
    text,
    fc.array(tie('value'), { maxLength: 4 }),
    fc.dictionary(fc.oneof(text, fc.nat(200).map(String)), tie('value'), { maxKeys: 5 }),
  ),
})).value;

/** The same value with the keys of every object put in another order. */
const shuffled = (value: Json, turn: number): Json => {
  if (Array.isArray(value)) return value.map((item: Json) => shuffled(item, turn));
  if (value === null || typeof value !== 'object') return value;
  const pairs = Object.entries(value as Record<string, Json>).map(([key, inner]) => [key, shuffled(inner, turn)] as const);
  const cut = pairs.length === 0 ? 0 : turn % pairs.length;
  return Object.fromEntries([...pairs.slice(cut), ...pairs.slice(0, cut)].toReversed());
};

describe('canonical', () => {
  it('reads back as the same value', () => {
    fc.assert(
      fc.property(json, (value) => {
        expect(JSON.parse(canonical(value))).toEqual(value);
      }),
    );
  });

  it('writes what it has read the same way again', () => {
    fc.assert(
      fc.property(json, (value) => {
        expect(canonical(JSON.parse(canonical(value)) as Json)).toBe(canonical(value));
      }),
    );
  });

  it('does not depend on the order of keys', () => {
    fc.assert(
      fc.property(json, fc.nat(), (value, turn) => {
        expect(canonical(shuffled(value, turn))).toBe(canonical(value));
      }),
    );
  });

  it('refuses a fraction wherever it stands', () => {
    fc.assert(
      fc.property(json, fc.double({ noInteger: true }), text, (value, number, key) => {
        expect(() => canonical({ [key]: [value, number] })).toThrow(NotCanonical);
      }),
    );
  });
});

describe('a value read back', () => {
  const object = fc
    .dictionary(fc.oneof(text, fc.nat(200).map(String), fc.constantFrom('sal', 'salt ', 'salu')), json, { maxKeys: 6 })
    .filter((value) => !('salt' in value));
  const salt = new Uint8Array(SALT_BYTES).fill(7);

  it('is sealed as the same line that the value would be, the salt in its place', () => {
    fc.assert(
      fc.property(object, (value) => {
        const whole = canonical({ ...value, salt: '07'.repeat(SALT_BYTES) });
        expect(seal(EMPTY, value, salt).text).toBe(whole);
        expect(seal(EMPTY, readBack(value), salt).text).toBe(whole);
      }),
    );
  });

  it('is what its own text reads as: keys in that order, no negative zero, nothing that is no key of its own', () => {
    fc.assert(
      fc.property(object, (value) => {
        const read = JSON.parse(canonical(value)) as Json;
        expect(readBack(value)).toStrictEqual(read);
        expect(JSON.stringify(readBack(value))).toBe(JSON.stringify(read));
      }),
    );
    const odd = JSON.parse('{"b":-0,"__proto__":{"z":1,"10":2,"9":[-0]},"a":0}') as Json;
    const back = readBack(odd);
    expect(JSON.stringify(back)).toBe('{"__proto__":{"9":[0],"10":2,"z":1},"a":0,"b":0}');
    expect(Object.getPrototypeOf(back)).toBe(Object.prototype);
    expect(Object.values(back as object).some((inner) => Object.is(inner, -0))).toBe(false);
  });

  it('cannot be changed anywhere after its text was written', () => {
    fc.assert(
      fc.property(object, (value) => {
        const loose = (inner: Json): boolean =>
          inner !== null && typeof inner === 'object' && (!Object.isFrozen(inner) || Object.values(inner).some(loose));
        expect(loose(readBack(value))).toBe(false);
      }),
    );
  });
});
