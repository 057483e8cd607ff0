import type { Source } from '#lib/soap/source';
import { readNumber } from '#lib/units/parse';

/**
 * A number as a person typed it or a table prints it: plain decimal text, point as its mark ("12.5"). Documents of the workshop hold no
 * binary fractions, so that what was typed comes back to the digit and a sealed line can hold it.
 */
export type Decimal = string;

/** What a figure rests on, in the words a maker reads. */
export type FigureGrade = 'standard' | 'handbook' | 'certificate' | 'from memory' | 'common practice' | 'computed' | 'typed';

/** A value with where it comes from. `low` and `high` are the standard's or certificate's range, where there is one. */
export interface Figure {
  readonly value: Decimal;
  readonly low?: Decimal;
  readonly high?: Decimal;
  /** "mg KOH/g", "%", "g/cm³", "°C", … */
  readonly unit: string;
  readonly source: string;
  readonly grade: FigureGrade;
}

/** Digits kept: finer than any table, and no binary noise ("0.30000000000000004"). */
const DIGITS = 12;

/** A finite number as plain decimal text, never in exponent notation. @throws RangeError for NaN and infinity */
export const decimal = (value: number): Decimal => {
  if (!Number.isFinite(value)) throw new RangeError('an unknown number has no digits');
  const short = String(Number(value.toPrecision(DIGITS)));
  if (!short.includes('e')) return short === '-0' ? '0' : short;
  return Math.abs(value) < 1 ? value.toFixed(20).replace(/\.?0+$/, '') : BigInt(Math.round(value)).toString();
};

const PLAIN = /^[+-]?(?:\d{1,15}(?:\.\d{0,15})?|\.\d{1,15})$/;

/**
 * The number a decimal text states; `null` when it is none, or could be two ("1,250"). A comma that can only be a decimal mark is read as
 * one: what a person typed is kept as typed. Says nothing of whether it makes sense where it stands.
 */
export const numberOf = (text: Decimal): number | null => {
  if (PLAIN.test(text.trim())) return Number(text);
  const read = readNumber(text);
  return read.kind === 'number' ? Number(read.decimal) : null;
};

/** The two numbers a text can be read as; `null` where there are no two. */
export const readingsOf = (text: Decimal): readonly [string, string] | null => {
  const read = readNumber(text);
  return read.kind === 'ambiguous' ? read.readings : null;
};

/** The number of a figure of ours. @throws RangeError when its text is no number: check typed figures first */
export const valueOf = (figure: { readonly value: Decimal }): number => {
  const value = numberOf(figure.value);
  if (value === null) throw new RangeError(`"${figure.value}" is no number`);
  return value;
};

const STANDARDS = /\b(?:Codex|ISO|AOCS|Ph\. Eur|BP|USP|OIML|Regulation|IUPAC|NIST)\b/;

/** The grade a maker reads for a source of `lib/soap`. A transcription of a standard still states the standard's figure. */
export const gradeOf = ({ text, grade }: Source): FigureGrade => {
  if (grade === 'memory') return 'from memory';
  if (grade === 'practice') return 'common practice';
  if (grade === 'computed') return 'computed';
  return grade === 'A' || STANDARDS.test(text) ? 'standard' : 'handbook';
};

/** A figure from a constant of `lib/soap`. */
export const figureFrom = (
  value: number,
  unit: string,
  source: Source,
  range?: { readonly low: number; readonly high: number },
): Figure => ({
  value: decimal(value),
  ...(range === undefined ? {} : { low: decimal(range.low), high: decimal(range.high) }),
  unit,
  source: source.text,
  grade: gradeOf(source),
});

/** A figure as the maker typed it. */
export const typed = (value: Decimal, unit: string, source = 'typed by the maker'): Figure => ({ value, unit, source, grade: 'typed' });
