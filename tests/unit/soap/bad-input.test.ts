import { describe, expect, it } from 'vitest';
import { acidPortion } from '#lib/soap/acid';
import type { AlkaliPortion } from '#lib/soap/alkali';
import { curve } from '#lib/soap/curve';
import type { Profile } from '#lib/soap/fatty-acid';
import { partsOf } from '#lib/soap/liquid';
import { molarMass } from '#lib/soap/molar-mass';
import { alkaliFor, superfat } from '#lib/soap/superfat';
import { iodineValue, naohPerGram, theoreticalSv, withUnsaponifiables } from '#lib/soap/theory';

const FAT = { mass: 100, sv: 190 };
const SODA: AlkaliPortion = { kind: 'NaOH', mass: 13, purity: 0.98 };
const SPLIT = { naohShare: 1, naohPurity: 1, kohPurity: 1 };
const of = (fat: Partial<typeof FAT>, soda: Partial<AlkaliPortion> = {}) =>
  superfat({ fats: [{ ...FAT, ...fat }], alkalis: [{ ...SODA, ...soda }], acids: [] });
const sour = (mass: number, strength: number) => superfat({ fats: [FAT], alkalis: [SODA], acids: [acidPortion('lactic', mass, strength)] });
const milk = (fractions: Partial<{ water: number; fat: number; sugar: number; acid: number }>, mass = 100, fatSv: number | null = 226) =>
  partsOf({ mass, fractions: { water: 0.88, fat: 0.03, sugar: 0.05, acid: 0.001, ...fractions }, acid: 'lactic', fatSv });

describe('bad input is refused in words', () => {
  it.each<readonly [string, () => unknown, RegExp]>([
    ['a fat of negative mass', () => of({ mass: -1 }), /mass of fat.*zero or more/],
    ['a fat of no number', () => of({ mass: Number.NaN }), /mass of fat/],
    ['a fat of endless mass', () => of({ mass: Number.POSITIVE_INFINITY }), /mass of fat/],
    ['only fat of no mass', () => of({ mass: 0 }), /at least one fat/],
    ['a fat with SV 0', () => of({ sv: 0 }), /saponification value/],
    ['a fat with a negative SV', () => of({ sv: -190 }), /saponification value/],
    ['an SV typed without its point', () => of({ sv: 1900 }), /at most 1000/],
    ['an SV that is no number', () => of({ sv: Number.NaN }), /saponification value/],
    ['alkali of purity 0', () => of({}, { purity: 0 }), /purity of sodium hydroxide.*above 0 and at most 1/],
    ['alkali of purity 130 %', () => of({}, { purity: 1.3 }), /purity of sodium hydroxide/],
    ['alkali of purity 98, as a percentage', () => of({}, { purity: 98 }), /fraction/],
    ['KOH of purity NaN', () => of({}, { kind: 'KOH', purity: Number.NaN }), /purity of potassium hydroxide/],
    ['alkali of negative mass', () => of({}, { mass: -1 }), /mass of sodium hydroxide/],
    ['acid of negative mass', () => sour(-1, 0.8), /mass of an acid/],
    ['acid of 130 %', () => sour(1, 1.3), /strength of an acid/],
    ['a superfat of 100 %', () => alkaliFor(1, [FAT], [], SPLIT), /between −100 and 100 %/],
    ['a superfat that is no number', () => alkaliFor(Number.NaN, [FAT], [], SPLIT), /between/],
    ['a share of 120 %', () => alkaliFor(0.05, [FAT], [], { ...SPLIT, naohShare: 1.2 }), /share of NaOH/],
    ['the purity of an alkali in use', () => alkaliFor(0.05, [FAT], [], { ...SPLIT, naohPurity: 0 }), /purity of sodium hydroxide/],
    ['no fat to make soap of', () => alkaliFor(0.05, [], [], SPLIT), /at least one fat/],
    ['a milk of more than itself', () => milk({ water: 0.95 }), /more than the whole/],
    ['a milk of negative fat', () => milk({ fat: -0.1 }), /fat of a liquid/],
    ['a milk whose fat nobody knows', () => milk({}, 100, null), /needs a saponification value/],
    ['a milk of no number', () => milk({}, Number.NaN), /mass of liquid/],
    ['an empty profile', () => theoreticalSv({}), /at least one share/],
    ['a profile of zeros', () => iodineValue({ '18:1': 0 }), /at least one share/],
    ['a negative share', () => theoreticalSv({ '18:1': -1 }), /share of oleic acid/],
    ['an unknown acid', () => theoreticalSv({ '99:9': 1 } as Profile), /no fatty acid/],
    ['an inherited name for an acid', () => theoreticalSv({ constructor: 1 } as unknown as Profile), /no fatty acid/],
    ['more unsaponifiable than all', () => withUnsaponifiables(190, 1.1), /unsaponifiable share/],
    ['NaOH for SV 0', () => naohPerGram(0), /saponification value/],
    ['an unknown element', () => molarMass({ Xx: 1 } as never), /no atomic weight/],
    ['half an atom less than none', () => molarMass({ H: -1 }), /zero or more/],
    [
      'a curve of two points',
      () =>
        curve([
          [0, 0],
          [1, 1],
        ]),
      /three points/,
    ],
  ])('%s', (_, act, words) => {
    expect(act).toThrow(RangeError);
    expect(act).toThrow(words);
  });

  it('asks for the purity of an alkali only where it is used', () => {
    expect(alkaliFor(0.05, [FAT], [], { ...SPLIT, kohPurity: Number.NaN })).toHaveLength(1);
    expect(alkaliFor(0.05, [FAT], [], { naohShare: 0, naohPurity: Number.NaN, kohPurity: 0.9 })).toHaveLength(1);
  });
});
