import { acidTake } from '#lib/soap/acid';
import { alkaliSupply, pureMass } from '#lib/soap/alkali';
import { fatDemand } from '#lib/soap/fat-portion';
import { sumOf } from '#lib/units/sum';
import { naohShare } from '#lib/soap/superfat';
import type { Facts } from './facts';
import type { Model } from './model';
import type { PerGram } from '#lib/soap/poured/per-gram';
import { perGramOf } from './per-gram';
import type { Whole } from './whole';

/** The balance of a batch in moles of hydroxide and grams of lye, and what a gram of each line does to it. */
export interface Balance {
  readonly demand: number;
  readonly acid: number;
  readonly supply: number;
  readonly superfat: number;
  readonly pure: number;
  readonly solution: number;
  readonly concentration: number;
  readonly naohShare: number;
  readonly per: readonly PerGram[];
  /** Fractions. */
  readonly superfatBand: readonly [number, number];
  readonly lyeBand: readonly [number, number];
}

/** Widths about what was asked where the formula states none. Ours, common practice, no source: points as fractions. */
const USUAL_WIDTH = { superfat: 0.01, lye: 0.015 } as const;

const about = (asked: number, width: number): readonly [number, number] => [asked - width, asked + width];

const HAIR = 1e-12;

/** Below zero by more than the last digits of a sum. */
export const isLyeHeavy = (superfat: number): boolean => superfat < -HAIR;

const notBelow = (least: number, [low, high]: readonly [number, number]): readonly [number, number] => [Math.max(least, low), high];

export const balanceOf = (model: Model, whole: Whole, facts: Facts): Balance => {
  const per = model.items.map(perGramOf);
  const demand = fatDemand(whole.all.fats);
  const acid = acidTake(whole.all.acids);
  const supply = alkaliSupply(whole.all.alkalis);
  const superfat = 1 - (supply - acid) / demand;
  const pure = sumOf(whole.all.alkalis, pureMass);
  const solution = per.reduce((sum, one, at) => sum + one.solution * (whole.grams[at] ?? 0), 0);
  const concentration = pure / solution;
  return {
    demand,
    acid,
    supply,
    superfat,
    pure,
    solution,
    concentration,
    naohShare: naohShare(whole.all.alkalis),
    per,
    // Nobody who asks for 0.5 % means that -0.5 % were fine: the usual width ends where lye is left over.
    superfatBand: facts.superfatLimits ?? notBelow(isLyeHeavy(superfat) ? superfat : 0, about(superfat, USUAL_WIDTH.superfat)),
    lyeBand: facts.lyeLimits ?? about(concentration, USUAL_WIDTH.lye),
  };
};

/** Change of superfat, as a fraction, for one gram more of a line. */
export const superfatPerGram = ({ demand, acid, supply }: Balance, one: PerGram): number =>
  ((supply - acid) * one.demand) / (demand * demand) - (one.supply - one.acid) / demand;

/** Change of lye concentration, as a fraction, for one gram more. */
export const lyePerGram = ({ pure, solution }: Balance, one: PerGram): number =>
  (one.pure * solution - pure * one.solution) / (solution * solution);
