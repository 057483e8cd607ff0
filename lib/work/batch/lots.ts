import type { MaterialId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import { mg } from '#lib/units/mass';
import { comesIn } from './comes-in';
import { divide } from './shares';
import type { BatchState, Contribution } from './state';

/** What one weighing came to, put right where somebody did. */
export const trueNet = (one: Pick<Contribution, 'net' | 'amended'>): Milligrams => one.amended ?? one.net;

type Lot = Contribution['lot'];
/** Milligrams by lot, `undefined` where none was stated. */
type Taken = Map<string | undefined, { readonly lot: Lot; readonly mass: number }>;

const add = (taken: Taken, lot: Lot, mass: number): void => void taken.set(lot?.id, { lot, mass: (taken.get(lot?.id)?.mass ?? 0) + mass });

/** What one line took: less what went back to its bottle, which is of the lot poured last, and what another batch was begun with, of each. */
const addLine = (all: Taken, contributions: readonly Contribution[]): void => {
  const taken: Taken = new Map();
  let last: Lot;
  for (const one of contributions) {
    if (one.struck !== null) continue;
    if (comesIn(one)) {
      last = one.lot ?? last;
      add(taken, one.lot, trueNet(one));
    } else if (one.toBottle === true) {
      if (last !== undefined) add(taken, last, trueNet(one));
    } else if (one.toBatch === true) {
      const of = [...taken.values()];
      const parts = divide(
        0 - one.net,
        of.map(({ mass }) => Math.max(0, mass)),
      );
      of.forEach(({ lot }, at) => add(taken, lot, -(parts[at] ?? 0)));
    }
  }
  for (const { lot, mass } of taken.values()) add(all, lot, mass);
};

/**
 * What a batch took of each lot: whatever was poured or typed and not crossed out, less what went back to its bottle and what became a
 * batch of its own. What stays in a jug, is spilt or thrown away was taken all the same.
 */
export const lotsOf = (state: BatchState): readonly { readonly lot: string; readonly mark: string; readonly mass: Milligrams }[] => {
  const all: Taken = new Map();
  for (const { contributions } of Object.values(state.lines)) addLine(all, contributions);
  return [...all.values()].flatMap(({ lot, mass }) => (lot === undefined ? [] : [{ lot: lot.id, mark: lot.mark, mass: mg(mass) }]));
};

/** What went in of a line for which no lot was stated. */
export const withoutLot = ({ lines }: BatchState): readonly { readonly material: MaterialId; readonly mass: Milligrams }[] =>
  Object.values(lines).flatMap(({ plan, contributions }) => {
    const all: Taken = new Map();
    addLine(all, contributions);
    const mass = all.get(undefined)?.mass ?? 0;
    return mass > 0 ? [{ material: plan.material.id, mass: mg(mass) }] : [];
  });

/** Lots its record named until somebody put it right, and that nothing in it is of now: whoever calls one back may want to know. */
export const onceNamed = (state: BatchState): readonly { readonly lot: string; readonly mark: string }[] => {
  const named = Object.values(state.lines).flatMap(({ contributions }) =>
    contributions.flatMap(({ struck, onceLots = [] }) => (struck === null ? onceLots : [])),
  );
  if (named.length === 0) return [];
  const taken = new Set(lotsOf(state).map(({ lot }) => lot));
  return [...new Map(named.filter(({ id }) => !taken.has(id)).map(({ id, mark }) => [id, { lot: id, mark }] as const)).values()];
};
