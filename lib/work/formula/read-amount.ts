import { readNumber } from '#lib/units/parse';
import type { MassUnit } from '#lib/units/mass';
import { decimal } from './figure';
import type { Amount, VolumeUnit } from './formula';
import type { ProblemCode } from './problem';

/** An amount as it stands on a card. `ask`: more than one thing it may mean; `keep` is what the card holds until somebody says. */
export type AmountRead =
  | { readonly kind: 'amount'; readonly amount: Amount }
  | {
      readonly kind: 'ask';
      readonly why: 'weight-or-fluid' | 'which-fluid-ounce' | 'which-number' | 'gram-or-grain';
      readonly choices: readonly Amount[];
      readonly keep: Amount | null;
    }
  | { readonly kind: 'problem'; readonly code: ProblemCode };

const MASS: Readonly<Record<string, MassUnit>> = {
  mg: 'mg',
  g: 'g',
  gram: 'g',
  grams: 'g',
  kg: 'kg',
  kilo: 'kg',
  kilos: 'kg',
  kilogram: 'kg',
  kilograms: 'kg',
  oz: 'oz',
  ounce: 'oz',
  ounces: 'oz',
  lb: 'lb',
  lbs: 'lb',
  pound: 'lb',
  pounds: 'lb',
};

/** Millilitres in one. */
const METRIC: Readonly<Record<string, number>> = { ml: 1, cl: 10, dl: 100, l: 1000, litre: 1000, litres: 1000, liter: 1000, liters: 1000 };

const SPOONS =
  /^(?:tsp|teaspoons?|tbsp|tablespoons?|dessertspoons?|cups?|drops?|pinch(?:es)?|dash(?:es)?|splash(?:es)?|handfuls?|sprigs?|capfuls?|squeezes?|some|a (?:little|few)|to taste)\b/;

const VULGAR: Readonly<Record<string, string>> = {
  '½': '1/2',
  '⅓': '1/3',
  '⅔': '2/3',
  '¼': '1/4',
  '¾': '3/4',
  '⅕': '1/5',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

const LONGEST = 200;
const OZ_PER_LB = 16;
/** Grams, by definition: 64.79891 mg. */
const GRAIN = 0.06479891;

const grams = (value: number): Amount => ({ kind: 'mass', value: decimal(value), unit: 'g' });

interface Term {
  /** More than one when the mark may be a decimal or a thousands mark. */
  readonly values: readonly number[];
  readonly unit: string;
}

/**
 * Reads "1 1/2 lb", "2 lb 3¼ oz", "8 oz", "250 ml", "3 tbsp", "5 %". Nothing is guessed: ounces of something that pours are asked about,
 * spoons are kept as written, a number without a unit is none.
 * @param pours whether the thing is a liquid or a liquid oil
 * @param of what a percentage is of
 */
export const readAmount = (text: string, pours: boolean, of: 'fats' | 'batter' | 'liquid' | 'hydroxide' | 'blend' = 'fats'): AmountRead => {
  const plain = text.trim().toLowerCase().slice(0, LONGEST);
  if (plain === '') return { kind: 'problem', code: 'missing' };
  if (SPOONS.test(plain)) return { kind: 'amount', amount: { kind: 'unweighed', text: text.trim().slice(0, LONGEST) } };
  const terms = termsOf(plain);
  if (terms === null) return { kind: 'problem', code: 'not-a-number' };
  const [first, second, third] = terms;
  if (first === undefined) return { kind: 'problem', code: 'not-a-number' };
  if (terms.some(({ unit }) => SPOONS.test(unit)))
    return { kind: 'amount', amount: { kind: 'unweighed', text: text.trim().slice(0, LONGEST) } };
  if (second !== undefined) return third === undefined ? poundsAndOunces(first, second) : { kind: 'problem', code: 'unknown-unit' };
  const read = first.values.map((value) => single(value, first.unit, pours, of));
  const [one] = read;
  if (one === undefined || read.length === 1) return one ?? { kind: 'problem', code: 'not-a-number' };
  const choices = read.flatMap((each) => (each.kind === 'amount' ? [each.amount] : each.kind === 'ask' ? each.choices : []));
  return choices.length === 0 ? one : { kind: 'ask', why: 'which-number', choices, keep: null };
};

const NUMBER = /^([+-]?[\d.,'’]*\d(?:\s+\d+\s*\/\s*\d+|\s*\/\s*\d+)?)\s*([^\d]*)/;

/** "2 lb 3 1/4 oz" as number and unit, twice; `null` where a number belongs and none stands. */
const termsOf = (plain: string): readonly Term[] | null => {
  // "1-1/2 oz" is one and a half.
  let rest = plain
    .replace(/^(\d+)-(?=\d+\s*\/)/, '$1 ')
    .replaceAll(/[½⅓⅔¼¾⅕⅛⅜⅝⅞]/g, (sign) => ` ${VULGAR[sign] ?? ''}`)
    .trim();
  const terms: Term[] = [];
  while (rest !== '') {
    const match = NUMBER.exec(rest);
    if (match === null) return null;
    const values = valuesOf(match[1] ?? '');
    if (values === null) return null;
    terms.push({
      values,
      unit: (match[2] ?? '')
        .replaceAll(/[.,\s]+/g, ' ')
        .replace(/^\s+|\s+(?:and|of)?\s*$|\s+$/g, '')
        .trim(),
    });
    rest = rest.slice(match[0].length).trim();
  }
  return terms;
};

/** "1 1/2", "3/4", "1,5". */
const valuesOf = (text: string): readonly number[] | null => {
  const fraction = /^(?:([+-]?\d+)\s+)?(\d+)\s*\/\s*(\d+)$/.exec(text);
  if (fraction !== null) {
    const [, whole = '0', top = '0', bottom = '1'] = fraction;
    return Number(bottom) === 0 ? null : [Number(whole) + Number(top) / Number(bottom)];
  }
  const read = readNumber(text);
  if (read.kind === 'number') return [Number(read.decimal)];
  return read.kind === 'ambiguous' ? read.readings.map(Number) : null;
};

const FLUID = /^(?:us |imperial |uk )?(?:fl|fluid) ?(?:oz|ounces?)$/;

const single = (value: number, unit: string, pours: boolean, of: 'fats' | 'batter' | 'liquid' | 'hydroxide' | 'blend'): AmountRead => {
  if (value < 0) return { kind: 'problem', code: 'negative' };
  if (value === 0) return { kind: 'problem', code: 'not-above-zero' };
  const text = decimal(value);
  if (unit === '%' || unit === 'percent' || unit === 'per cent') return { kind: 'amount', amount: { kind: 'share', of, percent: text } };
  if (FLUID.test(unit)) return fluid(text, unit);
  const metric = METRIC[unit];
  if (metric !== undefined) return { kind: 'amount', amount: { kind: 'volume', value: decimal(value * metric), unit: 'ml' } };
  // Old cards write grains so, new ones grams.
  if (unit === 'gr') return { kind: 'ask', why: 'gram-or-grain', choices: [grams(value), grams(value * GRAIN)], keep: null };
  const mass = MASS[unit];
  if (mass === undefined) return { kind: 'problem', code: unit === '' ? 'missing' : 'unknown-unit' };
  const weight: Amount = { kind: 'mass', value: text, unit: mass };
  if (mass !== 'oz' || !pours) return { kind: 'amount', amount: weight };
  return {
    kind: 'ask',
    why: 'weight-or-fluid',
    choices: [weight, volume(text, 'us-fl-oz'), volume(text, 'imperial-fl-oz')],
    keep: { kind: 'ounces-unclear', value: text },
  };
};

const volume = (value: string, unit: VolumeUnit): Amount => ({ kind: 'volume', value, unit });

const fluid = (text: string, unit: string): AmountRead => {
  if (unit.startsWith('us ')) return { kind: 'amount', amount: volume(text, 'us-fl-oz') };
  if (unit.startsWith('imperial ') || unit.startsWith('uk ')) return { kind: 'amount', amount: volume(text, 'imperial-fl-oz') };
  return { kind: 'ask', why: 'which-fluid-ounce', choices: [volume(text, 'us-fl-oz'), volume(text, 'imperial-fl-oz')], keep: null };
};

/** Pounds and ounces together are weight, whatever pours: nobody measures fluid in pounds. */
const poundsAndOunces = (pounds: Term, ounces: Term): AmountRead => {
  const [lb, oz] = [pounds.values[0], ounces.values[0]];
  const sure = pounds.values.length === 1 && ounces.values.length === 1;
  if (MASS[pounds.unit] !== 'lb' || MASS[ounces.unit] !== 'oz' || lb === undefined || oz === undefined || !sure)
    return { kind: 'problem', code: 'unknown-unit' };
  if (lb < 0 || oz < 0) return { kind: 'problem', code: 'negative' };
  const all = OZ_PER_LB * lb + oz;
  return all === 0
    ? { kind: 'problem', code: 'not-above-zero' }
    : { kind: 'amount', amount: { kind: 'mass', value: decimal(all), unit: 'oz' } };
};
