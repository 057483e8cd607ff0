import { mg, type Milligrams } from '#lib/units/mass';
import { sumOfAll } from '#lib/units/sum';
import { divide } from '../shares';
import type { BatchState } from '../state';
import { leftIn, leftOver } from './amounts';
import { mouldsIn } from './places';
import { standing, type MouldPour, type Source } from './types';

/** How much of a source came into one pour: between these, which are one where it is known. */
export interface SourceBounds {
  readonly source: Source;
  readonly low: Milligrams;
  readonly high: Milligrams;
}

/** What a source can have given to pours by turns, at the most: all that nothing else took and nobody weighed back. */
export const mayHaveGiven = (state: BatchState, source: Source): { readonly most: number; readonly leftKnown: boolean } => {
  const left = standing(state.pour.left).find(({ of }) => of === source);
  return { most: Math.max(0, leftIn(state, source) - (left?.mass ?? 0)), leftKnown: left !== undefined };
};

const mixed = (state: BatchState): readonly MouldPour[] => standing(state.pour.pours).filter(({ from }) => from.length > 1);

/** What stays on scrapers and rims at the most: no mould that is sold holds so little. A judgement. */
const DROPS = mg(20_000);

/** What may be in moulds that nobody weighed: all batter that is neither in a mould nor weighed back, where a planned mould has nothing. */
const unweighed = (state: BatchState): number => {
  const poured = standing(state.pour.pours);
  if (mouldsIn(state).every(({ n }) => poured.some(({ mould }) => mould === n))) return 0;
  return Math.max(0, leftOver(state) - sumOfAll(standing(state.pour.left).map(({ mass }) => mass)));
};

/**
 * How much of each jug is in a pour. From one jug it is the pour. By turns from several it follows only where no other pour took from them
 * by turns, weighed or not, and what stayed in each was weighed; else it lies between what the others cannot have given and what this one had.
 * Drops lost between jug and mould are neglected.
 */
export const sharesOf = (state: BatchState, pour: MouldPour): readonly SourceBounds[] => {
  const { from, mass } = pour;
  const [only] = from;
  if (from.length === 1 && only !== undefined) return [{ source: only, low: mass, high: mass }];
  const others = (source: Source): readonly MouldPour[] => mixed(state).filter((one) => one !== pour && one.from.includes(source));
  const given = from.map((source) => ({ source, ...mayHaveGiven(state, source) }));
  const hidden = unweighed(state);
  if (hidden <= DROPS && given.every(({ source, leftKnown, most }) => leftKnown && most > 0 && others(source).length === 0)) {
    const masses = divide(
      mass,
      given.map(({ most }) => most),
    );
    return from.map((source, at) => ({ source, low: mg(masses[at] ?? 0), high: mg(masses[at] ?? 0) }));
  }
  const rough = given.map(({ source, most, leftKnown }) => {
    const high = Math.min(mass, most);
    const rest = mass - (sumOfAll(given.map((one) => one.most)) - most);
    const elsewhere = leftKnown ? most - hidden - sumOfAll(others(source).map((one) => one.mass)) : 0;
    return { source, low: Math.min(high, Math.max(0, rest, elsewhere)), high };
  });
  return rough.map(({ source, low, high }) => {
    const least = mass - (sumOfAll(rough.map((one) => one.low)) - low);
    return { source, low: mg(low), high: mg(Math.max(low, Math.min(high, least))) };
  });
};
