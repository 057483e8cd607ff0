import { acidTake } from '#lib/soap/acid';
import { pureMass, type Hydroxide } from '#lib/soap/alkali';
import { waterOf } from '#lib/soap/batter';
import { vesselHeat } from '#lib/soap/heat/vessel';
import { makingPeak, startUnder, type Making, type MakingPeak, type StartAdvice } from '#lib/soap/lye/making';
import type { Estimate } from '#lib/soap/source';
import { sumOf } from '#lib/units/sum';
import { celsius, type MilliCelsius } from '#lib/units/temperature';
import type { PeakForetold } from './entries';
import { asPoured } from './poured/index';
import { linesIn } from './poured/pot';
import type { BatchState } from './state';

/** Warmer than this, °C, a liquid that was weighed frozen has thawed, and its ice cools nothing any more. Ours: a probe in slush reads near 0. */
const THAWED = 4;
/** Taken of hydroxide where only ice says a temperature, and of liquid of which nothing is heard, °C: a workshop. Ours. */
const WORKSHOP = 20;

/**
 * What meets in the lye's jug, as weighed so far and else at plan; `null` where nobody knows, or nothing dissolves at this bench.
 * @param liquid its temperature, °C; `null`: not heard, then what was weighed frozen is taken to be
 */
const lyeMakingOf = (state: BatchState, liquid: number | null): (Making & { readonly frozen: number }) | null => {
  const poured = asPoured(state);
  const own = Object.values(state.lines).filter(({ plan }) => plan.material.class === 'hydroxide');
  // Stock lye beside dry hydroxide: what diluting it sets free is in no table here.
  if (poured.kind !== 'figures' || own.length === 0 || own.some(({ plan }) => plan.inSolution === true)) return null;
  const { pot, masses } = poured;
  const lines = linesIn(state);
  const parts = pot.lines.flatMap(({ of, inLye }, at) =>
    inLye ? [{ of, mass: masses.grams[at] ?? 0, frozen: lines[at]?.plan.frozen === true }] : [],
  );
  const pure = (kind: Hydroxide): number =>
    sumOf(parts, ({ of, mass }) => mass * sumOf(of.alkalis, (one) => (one.kind === kind ? pureMass(one) : 0)));
  const water = sumOf(parts, ({ of, mass }) => mass * waterOf(of));
  if (water <= 0) return null;
  const asIce = liquid === null || liquid <= THAWED;
  return {
    naoh: pure('NaOH'),
    koh: pure('KOH'),
    water,
    frozen: asIce ? sumOf(parts, ({ of, mass, frozen }) => (frozen ? mass * waterOf(of) : 0)) : 0,
    acid: sumOf(parts, ({ of, mass }) => mass * acidTake(of.acids)),
    fat: sumOf(parts, ({ of, mass }) => mass * sumOf(of.fats, (one) => one.mass)),
    solids: sumOf(parts, ({ of, mass }) => mass * sumOf(of.inert, (one) => one.mass)),
    jug: jugOf(state),
  };
};

/** The vessel the liquid stands in, where its mass and what it is made of are known. */
const jugOf = ({ vessels }: BatchState): NonNullable<Making['jug']> | null => {
  const jug = Object.values(vessels).find(({ plan }) => plan.use === 'liquid');
  const perGram = jug === undefined ? null : vesselHeat(jug.plan.material);
  const empty = jug?.empty ?? jug?.plan.empty ?? null;
  return perGram === null || empty === null ? null : { grams: empty / 1000, perGram };
};

export interface LyeForetold {
  /** What the liquid had, °C. */
  readonly start: number;
  readonly peak: MakingPeak;
  /** How to start for a milk not to scorch; `null` without one. */
  readonly advice: StartAdvice | null;
}

/** Colder than this no heat balance here begins: ice is at 0 °C. */
const startOf = ({ frozen }: { readonly frozen: number }, liquid: number | null): number =>
  frozen > 0 ? WORKSHOP : Math.max(0, liquid ?? WORKSHOP);

/** What the lye of this batch would do, made from liquid of this temperature, °C (`null`: not heard); `null` where that is not known. */
export const foretellLye = (state: BatchState, liquid: number | null): LyeForetold | null => {
  const making = lyeMakingOf(state, liquid);
  if (making === null) return null;
  const { milkLimit } = state.plan.joining;
  const start = startOf(making, liquid);
  try {
    const advice = milkLimit === null ? null : startUnder(making, start, milkLimit / 1000);
    return { start: liquid ?? start, peak: makingPeak(making, start), advice };
  } catch (error) {
    // Stronger than any table, or a liquid hotter than 60 °C: not known, and never guessed.
    if (error instanceof RangeError) return null;
    throw error;
  }
};

const kept = ({ value, u }: Estimate): PeakForetold['likely'] => ({ value: celsius(value), u: Math.round(1000 * u) });

/** The same as a batch keeps it with the dissolving, and as it is told from there: nothing where the liquid's temperature is not known. */
export const foretoldOf = (state: BatchState, liquid: MilliCelsius | null): PeakForetold | null => {
  const told = liquid === null ? null : foretellLye(state, liquid / 1000);
  if (told === null) return null;
  return { start: celsius(told.start), likely: kept(told.peak.likely), atMost: kept(told.peak.atMost) };
};
