import type { Milligrams } from '#lib/units/mass';
import type { Blend } from './formula';
import type { PlanContext, Scale, WorkshopVessel } from './context';
import type { Item } from './model';
import { inJug } from './per-gram';
import { holds, resolves } from './scales';
import { cupboardOf, type Need, type Taken } from './vessels';

/** Where each line is weighed. */
export interface Place {
  readonly vessel: WorkshopVessel;
  /** Carried over into this one. */
  readonly into: WorkshopVessel | null;
  /** By what its bottle loses: asked for, or because no scale bears the vessel with all that goes into it. */
  readonly byLoss: boolean;
}

export interface Places {
  readonly of: readonly Place[];
  readonly pot: WorkshopVessel;
  /** Where the lye is made, or where a stock lye is weighed as the lye; `null` without hydroxide or liquid. */
  readonly jug: WorkshopVessel | null;
  readonly used: readonly WorkshopVessel[];
  readonly taken: readonly Taken[];
}

export interface PlaceFacts {
  readonly items: readonly Item[];
  /** Milligrams of each item, and the half-width wanted of it. */
  readonly targets: readonly Milligrams[];
  readonly wanted: readonly number[];
  readonly batterMl: number;
  readonly peak: number | null;
  readonly blends: readonly Blend[];
}

/** Headroom for a stick and a spoon, for lye that spits, for powder that dusts. Common practice, no source. */
const FILL = { pot: 0.8, jug: 0.6, cup: 0.85 } as const;
/** Millilitres that a gram takes at most: loose powders. */
const LOOSE = 2.5;
const OIL = 1.12;
/** Of a vessel or bottle whose mass nobody has said: with more of the scale's capacity in it than this it stands beside the scale. */
export const OF_CAPACITY = 0.7;

export const placesOf = (facts: PlaceFacts, { vessels, scales }: PlanContext): Places => {
  const { items, targets, batterMl, peak, blends } = facts;
  const cupboard = cupboardOf(vessels);
  const taken: Taken[] = [];
  const take = (need: Need): WorkshopVessel => {
    const one = cupboard.take(need);
    taken.push(one);
    return one.vessel;
  };
  const grams = (at: number): number => (targets[at] ?? 0) / 1000;
  const all = (counts: (item: Item) => boolean): number => items.reduce((sum, item, at) => sum + (counts(item) ? grams(at) : 0), 0);

  const pot = take({ use: 'oils', millilitres: batterMl, fill: FILL.pot, heat: null, name: 'oils pot' });
  const oils = all(goesInPot);
  const main = scales.find(({ role }) => role === 'main') ?? scales[0] ?? null;
  const besides = main !== null && !standsOn(main, pot, oils);
  // It carries over in as many goes as it takes: no jug is too small.
  const carried = items.some((item) => goesInPot(item) && !isByLoss(item));
  const carry = besides && carried ? take({ use: 'oils', millilitres: 1, fill: FILL.cup, heat: null, name: 'oils jug' }) : null;
  const wet = items.some((item) => item.part !== 'alkali' && inJug(item));
  const stock = isStockAlone(items);
  const solution = all(inJug);
  const jug = wet || stock ? take({ use: 'liquid', millilitres: solution, fill: FILL.jug, heat: peak, name: 'lye jug' }) : null;
  // No jug is weighed that no scale bears: what goes into it leaves a bottle that one does.
  const tooHeavy = jug !== null && scales.length > 0 && !scales.some((scale) => standsOn(scale, jug, solution));

  let oilsCup: WorkshopVessel | null = null;
  const smallOil = (): WorkshopVessel => (oilsCup ??= take({ use: 'oils', millilitres: 1, fill: FILL.cup, heat: null, name: 'oils cup' }));
  const cups = new Map<string, WorkshopVessel>();
  const asideCup = (item: Item, at: number): WorkshopVessel => {
    const blend = blends.find(({ entries }) => entries.includes(item.entry.id));
    const key = blend === undefined ? `entry ${item.entry.id}` : `blend ${blend.id}`;
    const known = cups.get(key);
    if (known !== undefined) return known;
    const mass = blend === undefined ? grams(at) : all(({ entry }) => blend.entries.includes(entry.id));
    const loose = item.part === 'extra' ? LOOSE : OIL;
    const cup = take({
      use: 'aside',
      millilitres: mass * loose,
      fill: FILL.cup,
      heat: null,
      name: `${(blend ?? item.found).name.toLowerCase()}${item.part === 'fragrance' ? ' scent' : ''} cup`,
    });
    cups.set(key, cup);
    return cup;
  };
  const onlyFine = (at: number): boolean => finerHelps(scales, facts.wanted[at] ?? 0, targets[at] ?? 0);

  const placeOf = (item: Item, at: number): Omit<Place, 'byLoss'> => {
    if (item.part === 'alkali' && stock && jug !== null) return { vessel: jug, into: null };
    if (item.part === 'alkali') {
      const name = item.found.makeup.alkalis.some(({ dissolved }) => dissolved) ? 'stock lye jug' : `${item.found.name.toLowerCase()} cup`;
      return { vessel: take({ use: 'hydroxide', millilitres: grams(at), fill: FILL.cup, heat: null, name }), into: null };
    }
    if (goesInPot(item)) {
      if (isByLoss(item)) return { vessel: pot, into: null };
      if (onlyFine(at)) return { vessel: smallOil(), into: pot };
      return carry === null ? { vessel: pot, into: null } : { vessel: carry, into: pot };
    }
    if (inJug(item) && jug !== null && (item.part === 'liquid' || !onlyFine(at))) return { vessel: jug, into: null };
    return { vessel: asideCup(item, at), into: null };
  };
  const of = items.map((item, at): Place => {
    const place = placeOf(item, at);
    return { ...place, byLoss: isByLoss(item) || (tooHeavy && place.vessel === jug) };
  });
  return { of, pot, jug, used: cupboard.used, taken };
};

const isByLoss = ({ entry }: Item): boolean => entry.weighed === 'loss';

/** The water of a stock lye is all the liquid there is: it is the lye. */
export const isStockAlone = (items: readonly Item[]): boolean =>
  items.some(({ part }) => part === 'alkali') &&
  items.every((item) => (item.part === 'alkali' ? item.found.makeup.alkalis.every(({ dissolved }) => dissolved) : !inJug(item)));

export const goesInPot = ({ part, entry }: Item): boolean =>
  (part === 'fat' && (entry.goes === null || entry.goes === 'oils')) || entry.goes === 'oils';

const standsOn = (scale: Scale, { empty }: WorkshopVessel, grams: number): boolean => {
  if (scale.capacity === null) return true;
  return empty === null ? 1000 * grams <= OF_CAPACITY * scale.capacity : empty + 1000 * grams <= scale.capacity;
};

/** The big scale cannot tell it, a finer one can and bears it. */
const finerHelps = (scales: readonly Scale[], wanted: number, target: number): boolean => {
  const main = scales.filter(({ role }) => role === 'main');
  if (main.length === 0 || main.some((scale) => resolves(scale, wanted))) return false;
  return scales.some((scale) => scale.role === 'fine' && resolves(scale, wanted) && holds(scale, target));
};
