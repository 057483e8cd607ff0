/**
 * A batch as it was poured. Pure chemistry: a `Pot` says what each line is made of and what is believed of it, `PotMasses` what was
 * weighed and every reading that rests on.
 *
 * - `outcomeAt(pot, grams)` → working values for any masses, in microseconds.
 * - `figuresOf(pot, masses)` → each with its standard uncertainty and 95 % interval, by GUM from the readings.
 * - `perGramOfLine(line)` → what a gram does, for a linear programme.
 */
export type * from './types';
export type { PerGram } from './per-gram';
export { figuresOf } from './figures';
export { outcomeAt } from './outcome';
export { perGramOfLine } from './whole';
