import { acidTake } from '#lib/soap/acid';
import { pureMass, type Hydroxide } from '#lib/soap/alkali';
import { waterOf } from '#lib/soap/batter';
import { vesselHeat } from '#lib/soap/heat/vessel';
import { makingPeak, startUnder, type Making, type MakingPeak, type StartAdvice } from '#lib/soap/lye/making';
import { sumOf } from '#lib/soap/sum';
import { asPoured } from './poured/index';
import type { BatchState } from './state';

/** What meets in the lye's jug, as weighed so far and else at plan; `null` where nobody knows, or nothing dissolves at this bench. */
export const lyeMakingOf = (state: BatchState): Making | null => {
  const poured = asPoured(state);
  const own = Object.values(state.lines).filter(({ plan }) => plan.material.class === 'hydroxide');
  // Stock lye beside dry hydroxide: what diluting it sets free is in no table here.
  if (poured.kind !== 'figures' || own.length === 0 || own.some(({ plan }) => plan.inSolution === true)) return null;
  const { pot, masses } = poured;
  const parts = pot.lines.map(({ of }, at) => ({ of, mass: masses.grams[at] ?? 0 })).filter((_, at) => pot.lines[at]?.inLye === true);
  const pure = (kind: Hydroxide): number =>
    sumOf(parts, ({ of, mass }) => mass * sumOf(of.alkalis, (one) => (one.kind === kind ? pureMass(one) : 0)));
  const water = sumOf(parts, ({ of, mass }) => mass * waterOf(of));
  if (water <= 0) return null;
  return {
    naoh: pure('NaOH'),
    koh: pure('KOH'),
    water,
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

/** What the lye of this batch would do, made from liquid of this temperature, °C; `null` where that is not known. */
export const foretellLye = (state: BatchState, start: number): LyeForetold | null => {
  const making = lyeMakingOf(state);
  if (making === null) return null;
  const { milkLimit } = state.plan.joining;
  try {
    const advice = milkLimit === null ? null : startUnder(making, start, milkLimit / 1000);
    return { start, peak: makingPeak(making, start), advice };
  } catch (error) {
    // Stronger than any table, or a liquid outside 0 to 60 °C: not known, and never guessed.
    if (error instanceof RangeError) return null;
    throw error;
  }
};
