import type { Amount, Entry, Part, ShareOf, VolumeUnit } from './formula';
import type { Found } from './lookup';
import type { ItemAmount } from './model';
import { HEAVIEST_GRAMS, type Reader } from './reader';
import { densityOf } from './density';
import { numberOf } from './figure';
import type { ProblemCode } from './problem';
import { readAmount } from './read-amount';

/** Millilitres in one: the fluid ounces by definition (US: 231 in³ ÷ 128; imperial: 4.54609 L ÷ 160). */
const MILLILITRES: Readonly<Record<VolumeUnit, number>> = { ml: 1, 'us-fl-oz': 29.5735295625, 'imperial-fl-oz': 28.4130625 };

/** Which shares a part may be given in. */
const SHARES: Readonly<Record<Part, readonly ShareOf[]>> = {
  fat: ['fats'],
  alkali: ['hydroxide'],
  liquid: ['liquid', 'fats'],
  acid: ['fats'],
  fragrance: ['fats', 'batter', 'blend'],
  extra: ['fats', 'batter'],
};

export type Read = ItemAmount | { readonly kind: 'rest' } | { readonly kind: 'blend'; readonly fraction: number };

/** More of fats than there is fat is no fragrance load, but water on fat may be. */
const MOST_OF_FATS = 10;

/** "1 pint", "-5 g": digits with a unit nobody weighs by, or below nothing; said as that, not as no number. */
const oddUnit = (amount: Amount): ProblemCode | null => {
  const text = amount.kind === 'share' ? amount.percent : amount.kind === 'mass' || amount.kind === 'volume' ? amount.value : '';
  if (!/[a-z]\.?$/i.test(text) && !text.trim().startsWith('-')) return null;
  if (numberOf(text) !== null) return null;
  const read = readAmount(text, false);
  return read.kind === 'problem' && (read.code === 'unknown-unit' || read.code === 'negative') ? read.code : null;
};

/** An amount as numbers; `null` after noting why not, `'unweighed'` for spoons. */
export const readAmountOf = (
  amount: Amount | null,
  part: Part,
  found: Found | null,
  path: string,
  reader: Reader,
): Read | 'unweighed' | null => {
  if (amount === null) return reader.note('missing', path);
  const odd = oddUnit(amount);
  if (odd !== null) return reader.note(odd, `${path}.${amount.kind === 'share' ? 'percent' : 'value'}`);
  switch (amount.kind) {
    case 'unweighed':
      return 'unweighed';
    case 'ounces-unclear':
      return reader.note('ounces-unclear', path, { value: amount.value });
    case 'rest':
      return part === 'fat' || part === 'liquid' || part === 'alkali'
        ? { kind: 'rest' }
        : reader.note('wrong-share', path, { of: 'rest', part });
    case 'mass': {
      const grams = reader.mass(amount.value, amount.unit, `${path}.value`);
      return grams === null ? null : { kind: 'mass', grams };
    }
    case 'volume': {
      const millilitres = MILLILITRES[amount.unit];
      const value = reader.above(amount.value, `${path}.value`, HEAVIEST_GRAMS / millilitres);
      return value === null || found === null ? null : { kind: 'mass', grams: value * millilitres * densityOf(found.makeup) };
    }
    case 'share':
      break;
  }
  const { of } = amount;
  if (!SHARES[part].includes(of)) return reader.note('wrong-share', `${path}.of`, { of, part });
  const most = of === 'fats' && part !== 'fat' ? MOST_OF_FATS : 1;
  const percent = reader.above(amount.percent, `${path}.percent`, 100 * most);
  if (percent === null) return null;
  return of === 'blend' ? { kind: 'blend', fraction: percent / 100 } : { kind: 'share', of, fraction: percent / 100 };
};

/** Of which material kinds an entry of a part may be made. */
export const mayPlay = (entry: Entry, { makeup, material, preparation }: Found): boolean => {
  switch (entry.part) {
    case 'fat':
      return makeup.fats.length > 0 && makeup.alkalis.length === 0 && makeup.water === 0;
    case 'alkali':
      return makeup.alkalis.length > 0 && makeup.fats.length === 0;
    case 'liquid':
      return makeup.water > 0 && makeup.alkalis.length === 0;
    case 'acid':
      return makeup.acids.length > 0 && makeup.fats.length === 0 && makeup.alkalis.length === 0;
    case 'fragrance':
      return material?.kind === 'fragrance' || preparation !== null;
    case 'extra':
      break;
  }
  return makeup.alkalis.length === 0;
};
