import { M_NAOH } from '../molar-mass';
import type { Effect } from './effect';
import type { Limit } from './programme';

/**
 * What a remedy must stay inside. `superfat-zero`: no more hydroxide than the fats take up, never loosened; `lye-dissolves`: no stronger
 * than any table knows. The others are the formula's or the bench's.
 */
export type LimitName =
  | 'superfat-zero'
  | 'superfat-least'
  | 'superfat-most'
  | 'lye-weakest'
  | 'lye-strongest'
  | 'lye-dissolves'
  | 'share-least'
  | 'share-most'
  | 'fragrance'
  | 'alkali-split-least'
  | 'alkali-split-most'
  | 'moulds'
  | 'brim'
  | 'scale-capacity';

export interface NamedLimit extends Limit {
  readonly name: LimitName;
  /** Line or vessel it is about. */
  readonly of: string | null;
}

type Of = string | null;

const limit = (name: LimitName, of: Of, coefficients: readonly number[], most = 0, safety = false): NamedLimit => ({
  id: of === null ? name : `${name} ${of}`,
  name,
  of,
  coefficients,
  most,
  safety,
});

const minus = (value: number): number => (value === 0 ? 0 : 0 - value);

/** A row "at least" as one "at most". */
const atLeast = (coefficients: readonly number[]): readonly number[] => coefficients.map(minus);

/** Grams of NaOH left over at a superfat of `s`: zero on the limit. */
const surplus = (effects: readonly Effect[], s: number): readonly number[] =>
  effects.map(({ supply, acid, demand }) => M_NAOH * (supply - acid - (1 - s) * demand));

/** Superfat never below zero, and inside what the formula says. Fractions. Rows in grams of NaOH. */
export const superfatLimits = (effects: readonly Effect[], band: readonly [low: number, high: number] | null): readonly NamedLimit[] => [
  limit('superfat-zero', null, surplus(effects, 0), 0, true),
  ...(band === null
    ? []
    : [limit('superfat-least', null, surplus(effects, band[0])), limit('superfat-most', null, atLeast(surplus(effects, band[1])))]),
];

/** Grams of pure alkali beyond a concentration of `c`. */
const beyond = (effects: readonly Effect[], c: number): readonly number[] => effects.map(({ pure, solution }) => pure - c * solution);

/** Where the tables of lye end, as a fraction of the solution: what is stronger is not known to stay dissolved. */
const STRONGEST = 0.5;

/** Rows in grams of pure alkali. */
export const lyeLimits = (effects: readonly Effect[], band: readonly [low: number, high: number] | null): readonly NamedLimit[] => [
  limit('lye-dissolves', null, beyond(effects, STRONGEST), 0, true),
  ...(band === null
    ? []
    : [limit('lye-weakest', null, atLeast(beyond(effects, band[0]))), limit('lye-strongest', null, beyond(effects, band[1]))]),
];

/** Of all fats, a fat's share; rows in grams of it. */
export const shareLimits = (
  effects: readonly Effect[],
  ids: readonly string[],
  bands: Readonly<Record<string, readonly [low: number, high: number]>>,
): readonly NamedLimit[] =>
  Object.entries(bands).flatMap(([id, [low, high]]) => {
    const at = ids.indexOf(id);
    if (at < 0) return [];
    const over = (share: number): readonly number[] => effects.map(({ fat }, i) => (i === at ? fat : 0) - share * fat);
    return [...(low > 0 ? [limit('share-least', id, atLeast(over(low)))] : []), ...(high < 1 ? [limit('share-most', id, over(high))] : [])];
  });

/** Σ cᵢ/Lᵢ ≤ 1 in the driest bar, a row in grams of it. None where a certificate is missing: then nobody can say. */
export const fragranceLimit = (effects: readonly Effect[]): readonly NamedLimit[] => {
  if (effects.every(({ strain }) => strain === 0) || effects.some(({ strain }) => strain === null)) return [];
  return [
    limit(
      'fragrance',
      null,
      effects.map(({ strain, dry }) => (strain ?? 0) - dry),
    ),
  ];
};

/** NaOH's share of the hydroxide by moles, within `width` of what is planned; rows in grams of NaOH. None for one alkali alone. */
export const splitLimits = (effects: readonly Effect[], share: number, width: number): readonly NamedLimit[] => {
  if (share <= 0 || share >= 1) return [];
  const over = (part: number): readonly number[] => effects.map(({ sodium, supply }) => M_NAOH * (sodium - part * supply));
  return [
    limit('alkali-split-least', null, atLeast(over(Math.max(0, share - width)))),
    limit('alkali-split-most', null, over(Math.min(1, share + width))),
  ];
};

/** Something that grows with each line by so much a gram, and may be `most`. */
export const roomLimit = (name: 'moulds' | 'brim' | 'scale-capacity', of: Of, perGram: readonly number[], most: number): NamedLimit =>
  limit(name, of, perGram, most);
