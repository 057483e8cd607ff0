import { readDay } from '#lib/units/day';
import { readNumber } from '#lib/units/parse';
import { keptMessages } from './messages';

/** A form as typed, by the path of each field in its document ("certificate.sv"): text throughout. */
export type Typed = Readonly<Record<string, string>>;
/** What is wrong, by the same paths. */
export type Errors = Readonly<Record<string, string>>;

/** Bounds of a number where no check of the core states them. */
export interface Bounds {
  readonly from?: number;
  /** Not the bound itself. */
  readonly above?: number;
  readonly to?: number;
  readonly whole?: boolean;
}

/** What stands in a field, without the spaces around it. */
export const at = (typed: Typed, key: string): string => (typed[key] ?? '').trim();

/** Reads the fields of one form and gathers what is wrong with them; the first word about a field counts. */
export interface Gather {
  readonly errors: Record<string, string>;
  note(key: string, why: string): void;
  /** A text that must be there. */
  name(key: string): string;
  /** A number as a document keeps it, point as its mark; `null` where nothing stands. What is none stays as typed. */
  number(key: string, bounds?: Bounds): string | null;
  /** A day as a document keeps it; what is none stays as typed. `bad`: how one is to be written. */
  day(key: string, bad: string): string;
  /** A number where something must stand; empty where nothing does. */
  must(key: string, bounds?: Bounds): string;
}

/** Letters of a name, as the shelf takes them. */
const LONGEST_NAME = 200;
const LONGEST_NUMBER = 40;

export const gather = (typed: Typed): Gather => {
  const errors: Record<string, string> = {};
  const { errors: words } = keptMessages;
  const note = (key: string, why: string): void => {
    errors[key] ??= why;
  };
  const number: Gather['number'] = (key, bounds = {}) => {
    const text = at(typed, key);
    if (text === '') return null;
    const plain = plainOf(text, bounds.to ?? Infinity);
    if (plain.why !== null) note(key, plain.why);
    else {
      const why = outside(Number(plain.text), bounds);
      if (why !== null) note(key, why);
    }
    return plain.text.slice(0, LONGEST_NUMBER);
  };
  return {
    errors,
    note,
    number,
    name(key) {
      const text = at(typed, key);
      if (text === '') note(key, words.missing);
      if (text.length > LONGEST_NAME) note(key, words.long(LONGEST_NAME));
      return text;
    },
    day(key, bad) {
      const { text, why } = dayTyped(at(typed, key), bad);
      if (why !== '') note(key, why);
      return text;
    },
    must(key, bounds) {
      const read = number(key, bounds);
      if (read === null) note(key, words.missing);
      return read ?? '';
    },
  };
};

/** A typed day as it is kept, or why it is none. `bad`: how one is to be written. */
export const dayTyped = (text: string, bad: string): { readonly text: string; readonly why: string } => {
  const read = readDay(text);
  if (read.kind === 'day') return { text: read.day, why: '' };
  return { text, why: read.kind === 'ambiguous' ? keptMessages.errors.eitherDay(...read.readings) : bad };
};

/** A text that reads as two numbers is taken as the one that can be meant here; where both can, in neither. */
const plainOf = (text: string, most: number): { readonly text: string; readonly why: string | null } => {
  const { errors } = keptMessages;
  const read = readNumber(text);
  if (read.kind === 'number') return { text: read.decimal, why: null };
  if (read.kind !== 'ambiguous') return { text, why: errors.number(text) };
  const [fraction, grouped] = read.readings;
  return Math.abs(Number(grouped)) > most ? { text: fraction, why: null } : { text, why: errors.ambiguous(fraction, grouped) };
};

const outside = (value: number, { from, above, to, whole = false }: Bounds): string | null => {
  const { errors } = keptMessages;
  if (whole && !Number.isSafeInteger(value)) return errors.whole;
  if (above !== undefined && value <= above) return errors.above(above);
  if (from !== undefined && value < from) return errors.from(from);
  return to !== undefined && value > to ? errors.to(to) : null;
};
