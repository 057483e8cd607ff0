import { readAmount } from '#lib/work/formula/index';
import type { Amount, AmountRead, Entry, Part, ShareOf } from '#lib/work/formula/index';
import type { Measure } from '../messages-sheet';

const MASSES = ['g', 'kg', 'oz', 'lb', 'mg'] as const;
const VOLUMES = ['ml', 'us-fl-oz', 'imperial-fl-oz'] as const;
const SHARES: Readonly<Partial<Record<Measure, ShareOf>>> = {
  percent: 'fats',
  'percent-batter': 'batter',
  'percent-liquid': 'liquid',
  'percent-hydroxide': 'hydroxide',
  'percent-blend': 'blend',
};
const BY_SHARE = {
  fats: 'percent',
  batter: 'percent-batter',
  liquid: 'percent-liquid',
  hydroxide: 'percent-hydroxide',
  blend: 'percent-blend',
} as const;

/** The measures each part may be typed in, those first that it mostly is. */
export const measuresOf = (part: Part, blended: boolean): readonly Measure[] => {
  const rest: readonly Measure[] = part === 'fat' || part === 'alkali' || part === 'liquid' ? ['rest'] : [];
  const shares: Readonly<Record<Part, readonly Measure[]>> = {
    fat: ['percent'],
    alkali: ['percent-hydroxide'],
    liquid: ['percent-liquid'],
    acid: ['percent'],
    fragrance: blended ? ['percent-blend'] : ['percent', 'percent-batter'],
    extra: ['percent', 'percent-batter'],
  };
  return [...rest, ...shares[part], ...MASSES, ...VOLUMES, 'unweighed'];
};

/** The measure an amount is in. */
export const measureOf = (amount: Amount): Measure => {
  switch (amount.kind) {
    case 'share':
      return BY_SHARE[amount.of];
    case 'mass':
    case 'volume':
      return amount.unit;
    case 'rest':
    case 'ounces-unclear':
    case 'unweighed':
      break;
  }
  return amount.kind;
};

/** What was typed of it, as it stands in the field. */
export const textOf = (amount: Amount | null): string => {
  if (amount === null || amount.kind === 'rest') return '';
  if (amount.kind === 'share') return amount.percent;
  return amount.kind === 'unweighed' ? amount.text : amount.value;
};

const LONGEST = 40;

/** The same digits in another measure: right or wrong, they are kept. */
export const amountIn = (text: string, measure: Measure): Amount => {
  const value = text.slice(0, LONGEST);
  const of = SHARES[measure];
  if (of !== undefined) return { kind: 'share', of, percent: value };
  if (measure === 'rest') return { kind: 'rest' };
  if (measure === 'unweighed') return { kind: 'unweighed', text };
  if (measure === 'ounces-unclear') return { kind: 'ounces-unclear', value };
  const volume = VOLUMES.find((unit) => unit === measure);
  if (volume !== undefined) return { kind: 'volume', value, unit: volume };
  return { kind: 'mass', value, unit: MASSES.find((unit) => unit === measure) ?? 'g' };
};

const WORDS: Readonly<Partial<Record<Measure, string>>> = { 'us-fl-oz': 'us fl oz', 'imperial-fl-oz': 'imperial fl oz' };

export interface Typed {
  readonly amount: Amount | null;
  /** More than one thing it may mean. */
  readonly choices: readonly Amount[];
}

/**
 * What was typed into a field whose measure stands beside it. Digits alone are in that measure; "1 1/2 lb", "2 lb 3 oz", "8 oz", "3 tbsp"
 * say their own. What cannot be read is kept as typed, for the plan to say so.
 */
export const typedAmount = (text: string, measure: Measure, pours: boolean): Typed => {
  const of = SHARES[measure] ?? 'fats';
  if (text.trim() === '') return { amount: measure === 'rest' ? { kind: 'rest' } : null, choices: [] };
  if (measure === 'unweighed') return unspooned(text, pours);
  const bare = /^[\s\d.,'’/½⅓⅔¼¾⅕⅛⅜⅝⅞+−-]*$/.test(text);
  const unit = SHARES[measure] === undefined ? (WORDS[measure] ?? measure) : '%';
  const known = measure === 'rest' || measure === 'ounces-unclear' ? '%' : unit;
  // Beside "oz, weight" a bare number has been told apart already.
  const read: AmountRead = bare ? readAmount(`${text} ${known}`, false, of) : readAmount(text, pours, of);
  const asTyped = amountIn(text, measure === 'rest' ? 'percent' : measure);
  if (read.kind === 'amount') return { amount: read.amount, choices: [] };
  return read.kind === 'ask' ? { amount: read.keep ?? asTyped, choices: read.choices } : { amount: asTyped, choices: [] };
};

/** Ends in a unit that things are weighed or measured by. */
const WEIGHED = /(?:^|[\s\d.,])(?:mg|k?g|kilos?|grams?|oz|ounces?|lbs?|pounds?|ml|cl|dl|l|%)\.?\s*$/i;

/** Over spoons a weight may be typed: it says its own unit, right or wrong ("1e9 kg", "-5 g"). Anything else stays as written. */
const unspooned = (text: string, pours: boolean): Typed => {
  const read = readAmount(text, pours);
  if (read.kind === 'ask') return { amount: read.keep ?? { kind: 'unweighed', text }, choices: read.choices };
  if (read.kind === 'amount') return { amount: read.amount, choices: [] };
  return { amount: WEIGHED.test(text) ? amountIn(text, 'g') : { kind: 'unweighed', text }, choices: [] };
};

/** Of something added now: in the measure its neighbours are in, the digits still to come. */
export const firstAmount = (entries: readonly Entry[], part: Part): Amount | null => {
  const before = entries.findLast((entry) => entry.part === part && entry.amount !== null && entry.amount.kind !== 'rest')?.amount;
  if (before !== undefined && before !== null) return amountIn('', measureOf(before));
  const alone = !entries.some((entry) => entry.part === part);
  return alone && (part === 'alkali' || part === 'liquid') ? { kind: 'rest' } : null;
};
