import type { BatchState } from '#lib/work/batch/index';

/** Something that a person can cross out: one entry, however many lines it is of. */
export interface Crossable {
  readonly entry: string;
  readonly name: string;
  readonly mass: number;
  readonly step: number | null;
}

/**
 * What can be crossed out at the bench, newest first: portions, weights, and what was taken out or lost. What another batch was begun with
 * is crossed out in neither.
 */
export const crossable = ({ lines, parts, vessels }: BatchState): readonly Crossable[] => {
  const found = new Map<string, Crossable & { readonly wall: number }>();
  for (const { plan, contributions } of Object.values(lines))
    for (const { entry, net, vessel, weighed, wall, struck, kind, toBatch } of contributions) {
      if (struck !== null || toBatch === true || kind === 'brought') continue;
      const before = found.get(entry);
      const name = before === undefined ? plan.material.name : (vessels[vessel]?.plan.name ?? before.name);
      found.set(entry, { entry, name, mass: (before?.mass ?? 0) + net, step: weighed?.step ?? null, wall });
    }
  const portions = new Map<string, Crossable>();
  for (const { entry, name, mass } of parts.toReversed()) {
    const before = portions.get(entry);
    portions.set(entry, {
      entry,
      name: before === undefined ? name : `${name}, ${before.name}`,
      mass: (before?.mass ?? 0) + mass,
      step: null,
    });
  }
  return [...portions.values(), ...[...found.values()].toSorted((a, b) => b.wall - a.wall)];
};
