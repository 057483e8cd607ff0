import { outcomeAt } from '#lib/soap/poured/outcome';
import type { Outcome } from '#lib/soap/poured/types';
import { roomLimit, type NamedLimit } from '#lib/soap/remedy/limits';
import type { VesselId } from '#lib/units/id';
import type { MaterialClass } from '../plan';
import { batterVessel } from '../decide/vessels';
import type { Bench } from './bench';
import type { Stand } from './stand';

const GRAM = 1000;
/** Grams by which a volume's slope is taken. */
const SLOPE = 0.01;

const outcome = ({ pot }: Bench, grams: readonly number[]): Outcome | null => {
  try {
    return outcomeAt(pot, grams);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
};

/** Something that grows nearly in proportion to the masses, where it is looked at. */
interface Grows {
  readonly name: 'moulds' | 'brim';
  readonly of: VesselId | null;
  readonly figure: (one: Outcome) => number | null;
  readonly most: number;
}

/** Moulds to the brim, and the vessel that the batter is made in. */
const grows = ({ state }: Bench): readonly Grows[] => {
  const batter = batterVessel(state)?.plan;
  const brim = batter === undefined || state.joined !== null ? null : batter.brimMl;
  return [
    { name: 'moulds', of: null, figure: ({ full }) => full, most: 1 },
    ...(batter === undefined || brim === null
      ? []
      : [{ name: 'brim' as const, of: batter.id, figure: ({ volume }: Outcome) => volume, most: brim }]),
  ];
};

/** It may be what it was planned to be, where that is more than its limit: the maker was told when planning. */
const mostOf = (bench: Bench, { figure, most }: Grows, planned: Outcome | null): number =>
  Math.max(most, (planned === null ? null : figure(planned)) ?? 0);

const plannedOutcome = (bench: Bench): Outcome | null =>
  outcome(
    bench,
    bench.stands.map(({ line }) => line.planned.target / GRAM),
  );

/** As rows: each figure's slopes where it is looked at, exact there. */
const growing = (bench: Bench, around: readonly number[]): readonly NamedLimit[] => {
  const here = outcome(bench, around);
  const planned = plannedOutcome(bench);
  const shifted = around.map((mass, i) => outcome(bench, around.with(i, mass + SLOPE)));
  return grows(bench).flatMap((one) => {
    const value = here === null ? null : one.figure(here);
    if (value === null) return [];
    const slopes = shifted.map((there) => ((there === null ? value : (one.figure(there) ?? value)) - value) / SLOPE);
    const straight = slopes.reduce((sum, slope, i) => sum + slope * (around[i] ?? 0), 0);
    return [roomLimit(one.name, one.of, slopes, mostOf(bench, one, planned) - value + straight)];
  });
};

/** As rows that say no more than by how much they are exceeded at these masses. */
const grown = (bench: Bench, grams: readonly number[]): readonly NamedLimit[] => {
  const here = outcome(bench, grams);
  const planned = plannedOutcome(bench);
  return grows(bench).flatMap((one) => {
    const value = here === null ? null : one.figure(here);
    return value === null ? [] : [roomLimit(one.name, one.of, [], mostOf(bench, one, planned) - value)];
  });
};

/** Millilitres that a gram takes in a vessel of its own, on the full side; what is dissolved takes little. Ours, no source. */
const TAKES: Readonly<Partial<Record<MaterialClass, number>>> = { 'hard-oil': 1.1, 'liquid-oil': 1.1, hydroxide: 0.4 };

const takes = ({ line }: Stand): number => TAKES[line.plan.material.class] ?? 1;

const goesInto = (stand: Stand, vessel: VesselId): boolean => (stand.line.plan.into ?? stand.line.plan.vessel) === vessel;

/** What a vessel holds to its brim, and what its scale bears under it; never less than was planned or is in already. */
const ofVessel = ({ state, stands, facts }: Bench, id: VesselId): readonly NamedLimit[] => {
  const vessel = state.vessels[id];
  if (vessel === undefined || state.joined !== null) return [];
  const inside = stands.map((stand) => goesInto(stand, id));
  const filled = (of: (stand: Stand) => number): number =>
    stands.reduce(
      (sum, stand, i) => sum + (inside[i] === true ? of(stand) * (Math.max(stand.mass, stand.line.planned.target) / GRAM) : 0),
      0,
    );
  const { brimMl } = vessel.plan;
  const brim =
    brimMl === null || id === batterVessel(state)?.plan.id
      ? []
      : [
          roomLimit(
            'brim',
            id,
            stands.map((stand, i) => (inside[i] === true ? takes(stand) : 0)),
            Math.max(brimMl, filled(takes)),
          ),
        ];
  const capacities = facts.scales.flatMap(({ capacity }) => (capacity === null ? [] : [capacity]));
  if (vessel.empty === null || capacities.length === 0) return brim;
  const weighed = stands.map((stand) => stand.line.plan.vessel === id && stand.line.plan.atOnce === undefined);
  const bears = (Math.max(...capacities) - vessel.empty) / GRAM;
  const load = stands.reduce(
    (sum, stand, i) => sum + (weighed[i] === true ? Math.max(stand.mass, stand.line.planned.target) / GRAM : 0),
    0,
  );
  return [...brim, roomLimit('scale-capacity', id, weighed.map(Number), Math.max(bears, load))];
};

/** Moulds, brims and scales. `exact`: only how far they are exceeded at these masses, nothing of how they grow. */
export const roomLimits = (bench: Bench, around: readonly number[], exact: boolean): readonly NamedLimit[] => [
  ...(exact ? grown(bench, around) : growing(bench, around)),
  ...Object.keys(bench.state.vessels).flatMap((id) => ofVessel(bench, id as VesselId)),
];
