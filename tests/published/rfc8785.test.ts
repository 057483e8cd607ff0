import { describe, expect, it } from 'vitest';
import { canonical, NotCanonical } from '#lib/record/canonical';
import type { Json } from '#lib/record/journal';

/**
 * Sources: RFC 8785 (https://www.rfc-editor.org/rfc/rfc8785), sections 3.2.2 to 3.2.4 and appendix B; and its author's test
 * data, https://github.com/cyberphone/json-canonicalization, testdata/. Ours takes integers only, so the numbers of 3.2.2 and
 * most of appendix B must be refused; what is left of the examples must come out as printed.
 */
describe('RFC 8785', () => {
  it('3.2.2: writes the literals and the string of the sample', () => {
    const sample = String.raw`{"string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/", "literals": [null, true, false]}`;
    const written = canonical(JSON.parse(sample) as Json);
    expect(written).toBe(String.raw`{"literals":[null,true,false],"string":"€$\u000f\nA'B\"\\\\\"/"}`);
    // 3.2.4: the same two members as UTF-8, as printed there.
    const hex = Buffer.from(written, 'utf8').toString('hex');
    expect(hex).toContain('226c69746572616c73223a5b6e756c6c2c747275652c66616c73655d');
    expect(hex).toContain('22737472696e67223a22e282ac245c75303030665c6e4127425c225c5c5c5c5c222f22');
  });

  it('3.2.2: refuses the numbers of the sample, which are fractions or unsafe', () => {
    for (const number of [333333333.3333333, 1e30, 4.5, 2e-3, 1e-27]) {
      expect(() => canonical({ numbers: [number] })).toThrow(NotCanonical);
    }
  });

  it('3.2.3: sorts keys by UTF-16 code units', () => {
    const sample = String.raw`{"\u20ac":"Euro Sign","\r":"Carriage Return","\ufb33":"Hebrew Letter Dalet With Dagesh","1":"One","\ud83d\ude00":"Emoji: Grinning Face","\u0080":"Control","\u00f6":"Latin Small Letter O With Diaeresis"}`;
    const written = canonical(JSON.parse(sample) as Json);
    expect(Object.values(JSON.parse(written) as Record<string, string>)).toHaveLength(7);
    const names = [
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ];
    expect(names.map((name) => written.indexOf(name))).toEqual(names.map((name) => written.indexOf(name)).toSorted((a, b) => a - b));
    expect(names.every((name) => written.includes(name))).toBe(true);
  });

  it.each([
    [
      'structures',
      '{"1":{"f":{"f":"hi","F":5},"\\n":56.0},"10":{},"":"empty","a":{},"111":[{}],"A":{}}',
      '{"":"empty","1":{"\\n":56,"f":{"F":5,"f":"hi"}},"10":{},"111":[{}],"A":{},"a":{}}',
    ],
    [
      'french',
      '{"peach":"This sorting order","péché":"is wrong according to French","pêche":"but canonicalization MUST","sin":"ingnore locale"}',
      '{"peach":"This sorting order","péché":"is wrong according to French","pêche":"but canonicalization MUST","sin":"ingnore locale"}',
    ],
    ['arrays', '[56,{"d":true,"10":null,"1":[]}]', '[56,{"1":[],"10":null,"d":true}]'],
    ['unicode', String.raw`{"Unnormalized Unicode":"A\u030a"}`, '{"Unnormalized Unicode":"A\u030a"}'],
  ])('test data: %s', (_, input, output) => {
    expect(canonical(JSON.parse(input) as Json)).toBe(output);
  });

  it('appendix B: zero and minus zero are 0', () => {
    expect(canonical(ieee('0000000000000000'))).toBe('0');
    expect(canonical(ieee('8000000000000000'))).toBe('0');
  });

  it.each([
    '0000000000000001',
    '8000000000000001',
    '7fefffffffffffff',
    'ffefffffffffffff',
    '4340000000000000',
    'c340000000000000',
    '4430000000000000',
    '7fffffffffffffff',
    '7ff0000000000000',
    '44b52d02c7e14af5',
    '444b1ae4d6e2ef50',
    '3eb0c6f7a0b5ed8d',
    '41b3de4355555553',
    'becbf647612f3696',
    '43143ff3c1cb0959',
  ])('appendix B: %s is no safe integer and is refused', (bits) => {
    expect(() => canonical(ieee(bits))).toThrow(NotCanonical);
  });
});

const ieee = (bits: string): number => Buffer.from(bits, 'hex').readDoubleBE();
