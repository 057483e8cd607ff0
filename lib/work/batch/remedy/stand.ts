import type { LineId, VesselId } from '#lib/units/id';
import { isFat, isHydroxide } from '../classes';
import { linesIn } from '../poured/pot';
import { asShares } from '../shares';
import type { BatchState, LineState, VesselState } from '../state';
import type { RemedyFacts } from './facts';

/**
 * Where a line stands, and with that what of it may still move (the table of what may be done, common practice, no source but safety's):
 *
 *   to-come   not begun, or a part is in: up and down to what is in          cup     pure in a vessel of its own: up, down
 *   solid     a hard fat in the pot, not melted nor stirred in: up, down     pot     pure, alone in the pot: up; down by its own card
 *   mixed     in with others: up, or a fraction of all of it out             held    neither: acid or milk in lye, fragrance in fats, batter
 */
export type Standing = 'to-come' | 'cup' | 'solid' | 'pot' | 'mixed' | 'held';

export interface Stand {
  readonly line: LineState;
  readonly id: LineId;
  readonly standing: Standing;
  /** Milligrams of it that are in play, in any vessel; and what of them is part of no mixture, in `vessel`. */
  readonly mass: number;
  readonly apart: number;
  readonly vessel: VesselId | null;
  /** To be poured to a target that is not reached. */
  readonly open: boolean;
  /** May grow. */
  readonly up: boolean;
}

/** Several lines together, or one dissolved in another, in milligrams. */
export interface MixedVessel {
  readonly vessel: VesselState;
  readonly holds: Readonly<Record<LineId, number>>;
  readonly caustic: boolean;
}

/** Nothing of it can be told apart from the rest any more. */
const isMade = ({ state }: VesselState): boolean => state === 'dissolved' || state === 'joined' || state === 'portioned';

const holdersOf = (state: BatchState, id: LineId): readonly VesselState[] =>
  Object.values(state.vessels).filter(({ holds }) => (holds[id] ?? 0) > 0);

/** Melting is not seen by any scale: what the probe or a person says of the pot, and that nothing liquid is in it. */
const isSolid = (state: BatchState, { plan }: LineState, vessel: VesselState, facts: RemedyFacts): boolean => {
  if (plan.material.class !== 'hard-oil' || isMade(vessel) || facts.stirredIn.includes(plan.id)) return false;
  const { oilsSetAt, mayStartToSet } = state.plan.joining;
  const melted = oilsSetAt ?? mayStartToSet ?? null;
  if (facts.oils !== null && melted !== null && facts.oils >= melted) return false;
  return asShares(vessel.holds).every(({ line }) => state.lines[line]?.plan.material.class === 'hard-oil');
};

const isAlone = (vessel: VesselState): boolean => !isMade(vessel) && asShares(vessel.holds).length === 1;

/** Of what is dissolved or mixed, more may go in: fats and plain liquids, and hydroxide into cooled lye. Never hydroxide once joined. */
const mayGrow = (state: BatchState, line: LineState): boolean => {
  if (isHydroxide(line.plan)) return state.joined === null;
  if (isFat(line.plan)) return true;
  if (state.joined !== null) return false;
  return line.plan.material.class === 'liquid';
};

const standOf = (state: BatchState, line: LineState, facts: RemedyFacts): Stand => {
  const { id } = line.plan;
  const holders = holdersOf(state, id);
  const mass = holders.reduce((sum, { holds }) => sum + (holds[id] ?? 0), 0);
  const open = line.status !== 'closed' && line.actual < line.plan.target;
  const head = { line, id, mass, open };
  const [only] = holders;
  if (only === undefined || holders.length > 1)
    return mass === 0
      ? {
          ...head,
          standing: open ? 'to-come' : 'held',
          apart: 0,
          vessel: null,
          up: open && (!isHydroxide(line.plan) || state.joined === null),
        }
      : { ...head, standing: 'mixed', apart: 0, vessel: null, up: mayGrow(state, line) };
  const vessel = only.plan.id;
  if (open)
    return { ...head, standing: 'to-come', apart: isAlone(only) ? mass : 0, vessel, up: !isHydroxide(line.plan) || state.joined === null };
  if (isAlone(only)) {
    const inPot = isFat(line.plan) && only.plan.use === 'oils' && line.plan.into === undefined;
    const standing = !inPot ? 'cup' : isSolid(state, line, only, facts) ? 'solid' : 'pot';
    return { ...head, standing, apart: mass, vessel, up: !isHydroxide(line.plan) || state.joined === null };
  }
  if (isSolid(state, line, only, facts)) return { ...head, standing: 'solid', apart: mass, vessel, up: true };
  const up = mayGrow(state, line);
  return { ...head, standing: up ? 'mixed' : 'held', apart: 0, vessel, up };
};

/** Every line of the batch, in its order. */
export const standsOf = (state: BatchState, facts: RemedyFacts): readonly Stand[] =>
  linesIn(state).map((line) => standOf(state, line, facts));

/** Every vessel with a mixture in it: what of its lines is not apart. */
export const mixedIn = (state: BatchState, stands: readonly Stand[]): readonly MixedVessel[] =>
  Object.values(state.vessels).flatMap((vessel) => {
    const apart = new Set(stands.filter((stand) => stand.apart > 0 && stand.vessel === vessel.plan.id).map(({ id }) => id));
    const holds = Object.fromEntries(asShares(vessel.holds).flatMap(({ line, mass }) => (apart.has(line) ? [] : [[line, mass] as const])));
    const caustic = Object.keys(vessel.holds).some((id) => state.lines[id as LineId]?.plan.material.class === 'hydroxide');
    return Object.keys(holds).length === 0 ? [] : [{ vessel, holds, caustic }];
  });

/** What is still to be poured of it, mg. What went into moulds counts for the line's target, though it is in play no more. */
export const toComeOf = ({ open, line }: Stand): number => (open ? line.plan.target - line.actual : 0);

/** Where a line ends with nothing done, mg: what is in play of it, and what is to come. */
export const untouched = (stand: Stand): number => stand.mass + toComeOf(stand);
