import { acidTake } from '../acid';
import { hydroxide } from '../alkali';
import type { Doubt } from '../doubt';
import { M_KOH } from '../molar-mass';
import { purityDoubt, svDoubt } from '../superfat-interval';
import { spreadOf } from '../superfat-spread';
import { sumOf } from '#lib/units/sum';
import type { Named } from './named';
import { narrowingOf } from './narrowing';
import { superfatAt } from './outcome';
import type { Belief, MassError, Pot, PouredSuperfat, WidthPart } from './types';
import { molesPerUnit, type Whole } from './whole';

const doubtOf = (one: Belief): Doubt =>
  one.of === 'sv' ? svDoubt(one.value, one.belief) : purityDoubt(one.value, one.belief.u, one.belief.kind);

const ofBeliefs = (pot: Pot, whole: Whole): readonly (Named & { readonly mean: number })[] =>
  pot.beliefs.map((belief, at) => {
    const { mean, u, shape, ends } = doubtOf(belief);
    const moles = molesPerUnit(whole, belief, at);
    const [demand, supply] = belief.of === 'sv' ? [u * moles, 0] : [0, u * moles];
    return {
      what: belief.of,
      of: belief.material,
      name: belief.name,
      belief,
      error: null,
      mean: mean * moles,
      demand,
      supply,
      shape,
      ends,
    };
  });

/** Moles that a gram of a line takes and gives, at the means of what is believed. */
interface MolesPerGram {
  readonly demand: number;
  readonly net: number;
}

const perGramAtMeans = (pot: Pot): readonly MolesPerGram[] => {
  const means = pot.beliefs.map((belief) => doubtOf(belief).mean);
  return pot.lines.map(({ of }) => ({
    demand: sumOf(of.fats, ({ mass, belief }) => mass * (means[belief] ?? 0)) / (1000 * M_KOH),
    net: sumOf(of.alkalis, ({ mass, belief, kind }) => (mass * (means[belief] ?? 0)) / hydroxide(kind).molarMass) - acidTake(of.acids),
  }));
};

const nameOf = (pot: Pot, id: string): string => pot.lines.find((line) => line.id === id)?.name ?? id;

const ofErrors = (pot: Pot, errors: readonly MassError[]): readonly Named[] => {
  const per = perGramAtMeans(pot);
  return errors.map((error) => ({
    what: error.cause,
    of: error.of,
    name: nameOf(pot, error.of),
    belief: null,
    error,
    demand: sumOf(error.effect, ({ line, grams }) => grams * (per[line]?.demand ?? 0)),
    supply: sumOf(error.effect, ({ line, grams }) => grams * (per[line]?.net ?? 0)),
    shape: { kind: 'normal' },
    ends: [-2, 2],
  }));
};

/** One row to a value, a scale or a line, whatever number of readings it is made of. */
const gathered = (causes: readonly Named[], shares: readonly number[], half: number): readonly WidthPart[] => {
  const rows = new Map<string, WidthPart>();
  for (const [at, { what, of, name, belief }] of causes.entries()) {
    const share = shares[at] ?? 0;
    if (share <= 0) continue;
    const key = JSON.stringify([what, of, belief?.lot ?? null]);
    const sum = share + (rows.get(key)?.share ?? 0);
    rows.set(key, { what, of, name, share: sum, half: half * Math.sqrt(sum) });
  }
  return [...rows.values()].toSorted((a, b) => b.share - a.share);
};

/**
 * Superfat of a pot with its doubt: every reading counted once, whichever lines it stands in, so that neighbours weighed without tare
 * correlate and one scale's gain cancels. Acids by stoichiometry, buoyancy ignored. `null` without fat.
 */
export const pouredSuperfat = (pot: Pot, whole: Whole, errors: readonly MassError[]): PouredSuperfat | null => {
  const working = superfatAt(whole);
  if (working === null) return null;
  const beliefs = ofBeliefs(pot, whole);
  const causes: readonly Named[] = [...beliefs, ...ofErrors(pot, errors)];
  const mean = (of: Belief['of']): number => sumOf(beliefs, (one) => (one.belief?.of === of ? one.mean : 0));
  const { expected, shares, ...spread } = spreadOf({ demand: mean('sv'), net: mean('purity') - acidTake(whole.all.acids) }, causes);
  const half = (spread.high - spread.low) / 2;
  return {
    ...spread,
    value: expected,
    working,
    parts: gathered(causes, shares, half),
    narrowing: narrowingOf(causes, shares, half),
  };
};
