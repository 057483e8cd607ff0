import type { LineId, LotId } from '#lib/units/id';
import { mg, type Milligrams } from '#lib/units/mass';
import { comesIn } from '../comes-in';
import { own } from '../own';
import { divide } from '../shares';
import type { BatchState, LineState } from '../state';
import { partSource, standing, type PlanPart, type Source } from './types';

/** So much of one line, of one lot: `null` where no lot was stated. */
export interface Lotted {
  readonly line: LineId;
  readonly lot: { readonly id: LotId; readonly mark: string } | null;
  readonly mass: Milligrams;
}

export const massOf = (all: readonly { readonly mass: Milligrams }[]): Milligrams => mg(all.reduce((sum, { mass }) => sum + mass, 0));

/** What of a mixture is in so much of it, lot by lot: whole milligrams that add up. */
export const inMass = (mass: Milligrams, mixture: readonly Lotted[]): readonly Lotted[] => {
  const masses = divide(
    mass,
    mixture.map((one) => one.mass),
  );
  return mixture.map((one, at) => ({ ...one, mass: mg(masses[at] ?? 0) }));
};

/** A line's actual mass by lots. What was taken back, of which nobody can say which lot it was, is taken from each in proportion. */
export const lotted = ({ plan, contributions, actual }: LineState): readonly Lotted[] => {
  const byLot = new Map<string, Lotted>();
  for (const { kind, struck, net, lot = null } of contributions) {
    if (struck !== null || net <= 0 || !comesIn({ kind })) continue;
    const key = lot?.id ?? '';
    byLot.set(key, { line: plan.id, lot, mass: mg((byLot.get(key)?.mass ?? 0) + net) });
  }
  return actual > 0 ? inMass(actual, [...byLot.values()]) : [];
};

const linesOf = (state: BatchState): readonly LineState[] =>
  state.order.flatMap((id) => {
    const line = own(state.lines, id);
    return line === undefined ? [] : [line];
  });

export const partsMade = ({ pour }: BatchState) => standing(pour.parts);

/** What goes into a part that was made; of one never made it went, if anywhere, into the whole. */
const ownPart = (state: BatchState, { plan }: LineState): string | null =>
  plan.part !== undefined && partsMade(state).some(({ id }) => id === plan.part) ? plan.part : null;

/** The batter that nothing of a part's own is in, all of it, as weighed. */
export const plainBatter = (state: BatchState): readonly Lotted[] =>
  linesOf(state).flatMap((line) => (ownPart(state, line) === null ? lotted(line) : []));

/** All that went into the pot, or into the jug of a part, lot by lot, before anything was poured from it. Empty for one never made. */
export const contentsOf = (state: BatchState, source: Source): readonly Lotted[] => {
  if (source === 'pot') return plainBatter(state);
  const made = partsMade(state).find(({ id }) => partSource(id) === source);
  if (made === undefined) return [];
  const own = linesOf(state).filter((line) => ownPart(state, line) === made.id);
  return [...inMass(made.mass, plainBatter(state)), ...own.flatMap(lotted)];
};

/**
 * What jugs would hold that nobody weighed, though what is their own was weighed: that, with as much of the batter as was planned for them. By
 * the record it all went into the whole, which nobody said.
 */
export const unmadeParts = (state: BatchState): readonly (readonly Lotted[])[] =>
  (state.plan.parts ?? []).flatMap((part) => {
    if (partsMade(state).some(({ id }) => id === part.id)) return [];
    const own = ofPart(state, part.id).flatMap(lotted);
    const rest = plainBatter(state).filter(({ line }) => !own.some((one) => one.line === line));
    return own.length === 0 ? [] : [[...inMass(mg(Math.round((part.ppm * massOf(rest)) / 1e6)), rest), ...own]];
  });

/** Every source there is: the pot first, then the parts as they were made. */
export const sourcesOf = (state: BatchState): readonly Source[] => ['pot', ...partsMade(state).map(({ id }) => partSource(id))];

/** What a source has had: the pot without what left it for parts. */
export const hadIn = (state: BatchState, source: Source): Milligrams => {
  const all = massOf(contentsOf(state, source));
  return source === 'pot' ? mg(all - massOf(partsMade(state))) : all;
};

/** What is left in a source by what was poured from it alone; what several poured by turns is in none of these figures. */
export const leftIn = (state: BatchState, source: Source): Milligrams => {
  const poured = standing(state.pour.pours).filter(({ from }) => from.length === 1 && from[0] === source);
  return mg(hadIn(state, source) - massOf(poured));
};

/** All batter that is not in a mould yet. */
export const leftOver = (state: BatchState): Milligrams =>
  mg(sourcesOf(state).reduce((sum, source) => sum + hadIn(state, source), 0) - massOf(standing(state.pour.pours)));

/** Planned batter without what parts have of their own. */
const plannedPlain = ({ lines }: BatchState): number =>
  Object.values(lines).reduce((sum, { plan, planned }) => sum + (plan.part === undefined ? planned.target : 0), 0);

const plannedPart = (state: BatchState, { ppm }: PlanPart): number => (ppm * plannedPlain(state)) / 1e6;

const ofPart = (state: BatchState, part: string): readonly LineState[] => linesOf(state).filter(({ plan }) => plan.part === part);

/**
 * How much batter the jug of a part is to get: its share of what there is, or, when what is its own has been weighed already, as much as
 * that is for.
 */
export const partTarget = (state: BatchState, part: PlanPart): { readonly mass: Milligrams; readonly by: 'share' | 'additive' } => {
  const weighed = ofPart(state, part.id).filter(({ actual, planned }) => actual > 0 && planned.target > 0);
  const common = linesOf(state).reduce((sum, line) => sum + (line.plan.part === undefined ? line.actual : 0), 0);
  const share = mg(Math.round((part.ppm * common) / 1e6));
  if (weighed.length === 0) return { mass: share, by: 'share' };
  const actual = weighed.reduce((sum, line) => sum + line.actual, 0);
  const planned = weighed.reduce((sum, line) => sum + line.planned.target, 0);
  return { mass: mg(Math.round((plannedPart(state, part) * actual) / planned)), by: 'additive' };
};

/** What each line of a part is to weigh for the grams that are in its jug; lines that are weighed already stay as they are. */
export const targetsFor = (state: BatchState, part: PlanPart, mass: Milligrams): readonly { line: LineState; target: Milligrams }[] => {
  const times = mass / plannedPart(state, part);
  return ofPart(state, part.id)
    .filter(({ status, actual }) => status !== 'closed' && actual === 0)
    .map((line) => ({ line, target: mg(Math.max(1, Math.round(line.planned.target * times))) }));
};
