import { as, type VesselId } from '#lib/units/id';
import { milliCelsius } from '#lib/units/temperature';
import type { VesselPlan, VesselUse } from '../batch/plan';
import type { WorkshopVessel } from './context';
import { numberOf } from './figure';

/** Lye eats these; the bench refuses a plan that names one. */
const EATEN: ReadonlySet<WorkshopVessel['material']> = new Set(['aluminium', 'zinc', 'tin']);

export const isEaten = ({ material }: WorkshopVessel): boolean => EATEN.has(material);

/** What a vessel must take: millilitres to its fill, and for lye the heat. */
export interface Need {
  readonly use: VesselUse;
  readonly millilitres: number;
  /** Fraction of the brim it may be filled to. */
  readonly fill: number;
  /** °C it must stand; `null` when cold or not known. */
  readonly heat: number | null;
  /** For one that has to be made up: "lye jug". */
  readonly name: string;
}

export interface Taken {
  readonly vessel: WorkshopVessel;
  /** `unknown`: its brim was never said. */
  readonly fits: 'yes' | 'no' | 'unknown';
  /** Not of the workshop: nothing suitable was left. */
  readonly madeUp: boolean;
}

/** Hands out each vessel of the workshop once. */
export interface Cupboard {
  take(need: Need): Taken;
  /** Everything handed out, in that order. */
  readonly used: readonly WorkshopVessel[];
}

const ratingOf = ({ rating }: WorkshopVessel): number | null => (rating === null ? null : numberOf(rating));

/** As a batch keeps it: what is known of the vessel on that day, the heat it is made for too. */
export const vesselPlanOf = (vessel: WorkshopVessel): VesselPlan => {
  const { id, name, use, material, empty, brimMl } = vessel;
  const rating = ratingOf(vessel);
  return { id, name, use, material, empty, brimMl, ...(rating === null ? {} : { hottest: milliCelsius(Math.floor(1000 * rating)) }) };
};

export const standsHeat = (vessel: WorkshopVessel, heat: number | null): boolean | null => {
  const rating = ratingOf(vessel);
  return heat === null || rating === null ? null : rating >= heat;
};

const fitsIn = ({ brimMl }: WorkshopVessel, { millilitres, fill }: Need): Taken['fits'] =>
  brimMl === null ? 'unknown' : brimMl * fill >= millilitres ? 'yes' : 'no';

const RANK = { yes: 0, unknown: 1, no: 2 } as const;

/** "oat cup" is the cup for ground oats: how many words of its name the need speaks of. */
const named = ({ name }: WorkshopVessel, need: Need): number =>
  name
    .toLowerCase()
    .split(/[^a-z0-9]+/)
    .filter((word) => word.length > 2 && word !== 'cup' && word !== 'jug' && need.name.includes(word)).length;

/** Fitting before unknown before too small; standing the heat before not; then the one named for it, then the smallest that fits, or the largest that does not. */
const better =
  (need: Need) =>
  (a: WorkshopVessel, b: WorkshopVessel): number => {
    const [fitA, fitB] = [fitsIn(a, need), fitsIn(b, need)];
    const heat = (vessel: WorkshopVessel): number => (standsHeat(vessel, need.heat) === false ? 1 : 0);
    const size = (a.brimMl ?? 0) - (b.brimMl ?? 0);
    return RANK[fitA] - RANK[fitB] || heat(a) - heat(b) || named(b, need) - named(a, need) || (fitA === 'no' ? -size : size);
  };

const slug = (name: string): string => name.replaceAll(/[^a-z0-9]+/g, '-');

export const cupboardOf = (vessels: readonly WorkshopVessel[]): Cupboard => {
  const used: WorkshopVessel[] = [];
  const ids = new Set<string>(vessels.map(({ id }) => id));
  const makeUp = ({ use, name }: Need): WorkshopVessel => {
    let id = slug(name);
    for (let n = 2; ids.has(id); n += 1) id = `${slug(name)}-${n}`;
    ids.add(id);
    return { id: as<VesselId>(id), name, use, material: 'unstated', empty: null, brimMl: null, rating: null };
  };
  return {
    used,
    take: (need) => {
      const free = vessels.filter((vessel) => vessel.use === need.use && !isEaten(vessel) && !used.includes(vessel));
      const found = free.toSorted(better(need))[0];
      const vessel = found ?? makeUp(need);
      used.push(vessel);
      return { vessel, fits: found === undefined ? 'unknown' : fitsIn(found, need), madeUp: found === undefined };
    },
  };
};
