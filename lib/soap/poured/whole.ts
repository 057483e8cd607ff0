import { hydroxide } from '../alkali';
import { M_KOH } from '../molar-mass';
import { react } from '../reaction';
import { sumOf } from '#lib/units/sum';
import { perGramOf, type PerGram } from './per-gram';
import type { Belief, Pot, PotLine, PotParts } from './types';

/** A pot at some masses. */
export interface Whole {
  readonly grams: readonly number[];
  /** Everything together. */
  readonly all: PotParts;
  /** Of each line, whatever its mass. */
  readonly per: readonly PerGram[];
  readonly fats: number;
  readonly batter: number;
  /** Grams of the bars with all their water gone: the least they can weigh. */
  readonly driest: number;
}

const coefficients = new WeakMap<PotLine, PerGram>();

/** What a gram of a line counts for, at the working values; worked out once for each line. */
export const perGramOfLine = (line: PotLine): PerGram => {
  const known = coefficients.get(line);
  if (known !== undefined) return known;
  const per = perGramOf(line.of, line.inLye);
  coefficients.set(line, per);
  return per;
};

const times = <T extends { readonly mass: number }>(parts: readonly T[], by: number): readonly T[] =>
  parts.map((part) => ({ ...part, mass: part.mass * by }));

/** @throws RangeError for a mass below zero */
export const wholeOf = ({ lines }: Pot, grams: readonly number[]): Whole => {
  const each = lines.map((line, at) => ({ line, mass: grams[at] ?? 0 }));
  const all: PotParts = {
    fats: each.flatMap(({ line, mass }) => times(line.of.fats, mass)),
    alkalis: each.flatMap(({ line, mass }) => times(line.of.alkalis, mass)),
    acids: each.flatMap(({ line, mass }) => times(line.of.acids, mass)),
    water: sumOf(each, ({ line, mass }) => line.of.water * mass),
    inert: each.flatMap(({ line, mass }) => times(line.of.inert, mass)),
  };
  const after = react({ ...all, inert: sumOf(all.inert, ({ mass }) => mass) });
  return {
    grams,
    all,
    per: lines.map(perGramOfLine),
    fats: sumOf(each, ({ line, mass }) => (line.part === 'fat' ? mass : 0)),
    batter: sumOf(each, ({ mass }) => mass),
    driest: after.total - after.water,
  };
};

/** Moles of hydroxide that one unit of a believed value takes or gives in the whole: grams of its portions, over the molar mass. */
export const molesPerUnit = ({ all }: Whole, { of }: Belief, at: number): number =>
  of === 'sv'
    ? sumOf(all.fats, ({ belief, mass }) => (belief === at ? mass : 0)) / (1000 * M_KOH)
    : sumOf(all.alkalis, ({ belief, mass, kind }) => (belief === at ? mass / hydroxide(kind).molarMass : 0));
