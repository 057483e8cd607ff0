import { NANOGRAMS_PER, type MassUnit } from '#lib/units/mass';
import { numberOf, readingsOf, type Decimal } from './figure';
import { problem, type Problem, type ProblemCode } from './problem';

/**
 * Reads typed numbers and gathers what is wrong with them, so that all problems are said at once. Each method answers the number, or
 * `null` after noting why not.
 */
export interface Reader {
  readonly problems: readonly Problem[];
  note(code: ProblemCode, path: string, params?: Problem['params']): null;
  /** Any number. */
  number(text: Decimal, path: string): number | null;
  /** Above zero and at most `most`. */
  above(text: Decimal, path: string, most: number): number | null;
  /** Inside [low, high]. */
  within(text: Decimal, path: string, low: number, high: number): number | null;
  /** A percentage as a fraction: from 0, or above 0, to 100. */
  percent(text: Decimal, path: string, zero?: 'zero' | 'above-zero'): number | null;
  /** A whole number from 1. */
  count(value: number, path: string, most: number): number | null;
  /** Both ends inside [low, high], the lower not above the upper. */
  band(band: { readonly low: Decimal; readonly high: Decimal }, path: string, low: number, high: number): readonly [number, number] | null;
  /** Grams. */
  mass(text: Decimal, unit: MassUnit, path: string): number | null;
}

/** A tonne: more is no batch of a workshop. */
export const HEAVIEST_GRAMS = 1_000_000;

export const gramsIn = (unit: MassUnit): number => Number(NANOGRAMS_PER[unit]) / 1e9;

export const createReader = (): Reader => {
  const problems: Problem[] = [];
  const note: Reader['note'] = (code, path, params = {}) => {
    problems.push(problem(code, path, params));
    return null;
  };
  const number: Reader['number'] = (text, path) => {
    if (text.trim() === '') return note('missing', path);
    const value = numberOf(text);
    if (value !== null) return value;
    const two = readingsOf(text);
    return two === null ? note('not-a-number', path, { text }) : note('which-number', path, { one: two[0], other: two[1] });
  };
  const above: Reader['above'] = (text, path, most) => {
    const value = number(text, path);
    if (value === null) return null;
    if (value <= 0) return note('not-above-zero', path, { value });
    return value > most ? note('too-large', path, { value, most }) : value;
  };
  const within: Reader['within'] = (text, path, low, high) => {
    const value = number(text, path);
    if (value === null) return null;
    return value < low || value > high ? note('out-of-range', path, { value, low, high }) : value;
  };
  return {
    problems,
    note,
    number,
    above,
    within,
    percent: (text, path, zero = 'zero') => {
      const value = zero === 'zero' ? within(text, path, 0, 100) : above(text, path, 100);
      return value === null ? null : value / 100;
    },
    count: (value, path, most) => {
      if (!Number.isSafeInteger(value)) return note('not-whole', path, { value: String(value) });
      if (value <= 0) return note('not-above-zero', path, { value });
      return value > most ? note('too-large', path, { value, most }) : value;
    },
    band: (band, path, low, high) => {
      const from = within(band.low, `${path}.low`, low, high);
      const to = within(band.high, `${path}.high`, low, high);
      if (from === null || to === null) return null;
      return from > to ? note('band-upside-down', path, { low: from, high: to }) : [from, to];
    },
    mass: (text, unit, path) => {
      const factor = gramsIn(unit);
      const value = above(text, path, HEAVIEST_GRAMS / factor);
      return value === null ? null : value * factor;
    },
  };
};
