import { createRequire } from 'node:module';

/**
 * General-purpose libraries that say the same by other code and from other tables: molar masses from isotopes, distributions, units. They
 * carry no types we could lean on: what is asked of each stands here.
 */
const load = createRequire(import.meta.url);

interface Mf {
  new (formula: string): { getInfo(): { readonly mass: number } };
}
interface Stat {
  readonly normal: { cdf(x: number, mean: number, sd: number): number; inv(p: number, mean: number, sd: number): number };
  readonly studentt: { inv(p: number, freedom: number): number };
  readonly uniform: { inv(p: number, low: number, high: number): number };
  readonly triangular: { cdf(x: number, low: number, high: number, mode: number): number };
  mean(values: readonly number[]): number;
  stdev(values: readonly number[], sample?: boolean): number;
}
type Qty = (text: string) => { to(unit: string): { readonly scalar: number } };

const { MF } = load('mf-parser') as { readonly MF: Mf };
export const { jStat: statistics } = load('jstat') as { readonly jStat: Stat };
const quantity = load('js-quantities') as Qty;

/** g/mol, each element by its isotopes. */
export const molarMassOf = (formula: string): number => new MF(formula).getInfo().mass;

/** "1 lb" in another unit. */
export const inUnit = (text: string, unit: string): number => quantity(text).to(unit).scalar;
