import { mg } from '#lib/units/mass';
import { inMass, massOf, type Lotted } from './amounts';
import type { SourceBounds } from './bounds';
import type { Source } from './types';

/** One lot of one line in a mould, whole milligrams. */
export interface LottedBounds extends Omit<Lotted, 'mass'> {
  readonly low: number;
  readonly high: number;
}

export type Contents = (source: Source) => readonly Lotted[];

const keyOf = ({ line, lot }: Pick<Lotted, 'line' | 'lot'>): string => JSON.stringify([line, lot?.id ?? null]);

interface Bound {
  readonly fraction: number;
  readonly low: number;
  readonly high: number;
}

/** Greatest, or least, of one material in a mass made up of several: filled first from what has most of it, or least. */
const extreme = (bounds: readonly Bound[], mass: number, sign: 1 | -1): number => {
  let rest = mass - bounds.reduce((sum, { low }) => sum + low, 0);
  return bounds
    .toSorted((a, b) => sign * (b.fraction - a.fraction))
    .reduce((sum, { fraction, low, high }) => {
      const more = Math.max(0, Math.min(high - low, rest));
      rest -= more;
      return sum + fraction * (low + more);
    }, 0);
};

/** What is in a pour, whose sources are known: whole milligrams that add up to it. */
const known = (shares: readonly SourceBounds[], contents: Contents): readonly LottedBounds[] =>
  shares.flatMap(({ source, low }) => inMass(low, contents(source)).map(({ mass, ...of }) => ({ ...of, low: mass, high: mass })));

const between = (mass: number, shares: readonly SourceBounds[], contents: Contents): readonly LottedBounds[] => {
  const held = shares.map(({ source, low, high }) => ({ low, high, all: contents(source) }));
  const of = new Map(held.flatMap(({ all }) => all.map((one) => [keyOf(one), one] as const)));
  return [...of].map(([key, { line, lot }]) => {
    const bounds = held.map(({ low, high, all }): Bound => {
      const mine = all.find((one) => keyOf(one) === key)?.mass ?? 0;
      return { fraction: mine / Math.max(1, massOf(all)), low, high };
    });
    return { line, lot, low: Math.floor(extreme(bounds, mass, -1)), high: Math.ceil(extreme(bounds, mass, 1)) };
  });
};

export const isKnown = (shares: readonly SourceBounds[]): boolean => shares.every(({ low, high }) => low === high);

/** What is in one pour of so much, by lots. */
export const inPour = (mass: number, shares: readonly SourceBounds[], contents: Contents): readonly LottedBounds[] =>
  isKnown(shares) ? known(shares, contents) : between(mass, shares, contents);

/** Sums of several pours, lot by lot, in the order they first come in. */
export const added = (all: readonly LottedBounds[]): readonly LottedBounds[] => {
  const sums = new Map<string, LottedBounds>();
  for (const one of all) {
    const before = sums.get(keyOf(one));
    sums.set(keyOf(one), before === undefined ? one : { ...before, low: before.low + one.low, high: before.high + one.high });
  }
  return [...sums.values()].filter(({ high }) => high > 0);
};

/** All of a source that can have come in, when nobody weighed anything: from nothing to all of it. */
export const perhaps = (shares: readonly SourceBounds[], contents: Contents): readonly LottedBounds[] =>
  shares.flatMap(({ source, high }) => inMass(mg(high), contents(source)).map(({ mass, ...of }) => ({ ...of, low: 0, high: mass })));
