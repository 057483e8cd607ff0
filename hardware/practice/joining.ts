import { sumOfAll } from '#lib/units/sum';
import type { JoinedHint } from './hint';
import type { ShelfVessel } from './shelf-vessel';
import { CLINGS } from './maker';
import type { World } from './world/world';

/** A pot that nobody has weighed empty, mg. */
const UNWEIGHED = 420_000;

type Shelf = readonly ShelfVessel[];

/** Whether hydroxide stands in its cup; a shelf that knows no such cup says nothing against it. */
export const isDryThere = (world: World, shelf: Shelf): boolean => {
  const cups = shelf.filter(({ use }) => use === 'hydroxide');
  return cups.length === 0 || cups.some(({ id, contents }) => (world.vessels.get(id)?.contents ?? contents) > 0);
};

/** All dry hydroxide into the liquid; what nobody has fetched yet comes later as the record has it. */
export const dissolve = (world: World, shelf: Shelf): void => {
  const liquid = world.vessels.get(shelf.find(({ use }) => use === 'liquid')?.id ?? '');
  if (liquid === undefined) return;
  for (const { id } of shelf.filter(({ use }) => use === 'hydroxide')) {
    const dry = world.vessels.get(id);
    if (dry !== undefined) [liquid.contents, dry.contents] = [liquid.contents + dry.contents, 0];
  }
};

/** How much of the batter's mass came as lye. */
export const lyeShare = ({ into, from }: JoinedHint, shelf: Shelf): number => {
  const liquid = new Set(shelf.filter(({ use }) => use === 'liquid').map(({ id }) => id));
  const lye = from.reduce((sum, { id, mass }) => (liquid.has(id) ? sum + mass : sum), 0);
  const all = shelf.find(({ id }) => id === into)?.contents ?? 0;
  return all > 0 ? Math.min(1, lye / all) : 0;
};

/** Every vessel's contents into the one of the batter, all but what clings to the wall; the temperatures meet. */
export const pourTogether = (world: World, joined: JoinedHint, shelf: Shelf): void => {
  const poured = joined.from.map(({ id }) => {
    const vessel = world.vessels.get(id);
    const mass = Math.round((vessel?.contents ?? 0) * (1 - CLINGS));
    if (vessel !== undefined) vessel.contents -= mass;
    return mass;
  });
  const mass = sumOfAll(poured);
  const planned = shelf.find(({ id }) => id === joined.into);
  // One not fetched before comes with what the record has in it, this pour among it.
  const contents = Math.max(0, (planned?.contents ?? 0) - mass);
  world.vessel(joined.into, { empty: planned?.empty ?? UNWEIGHED, contents }).contents += mass;
  world.warmth.join(lyeShare(joined, shelf));
};
