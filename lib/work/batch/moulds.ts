import type { LineId, LotId, MaterialId } from '#lib/units/id';
import { mg, type Milligrams } from '#lib/units/mass';
import { own } from './own';
import type { MaterialClass } from './plan';
import { contentsOf, massOf, sourcesOf } from './pouring/amounts';
import { mayHaveGiven, sharesOf, type SourceBounds } from './pouring/bounds';
import { added, inPour, isKnown, perhaps, type LottedBounds } from './pouring/mixture';
import { mouldsIn } from './pouring/places';
import { standing, type MouldPour, type Pattern, type PlanMould, type Source } from './pouring/types';
import type { BatchState, Portion } from './state';

/** A mass that may be known only within bounds, whole milligrams. `mass` `null`: not known; the ends then bound it. */
export interface Bounded {
  readonly mass: Milligrams | null;
  readonly low: Milligrams;
  readonly high: Milligrams;
}

/** How much of one source went into a mould. */
export interface MouldShare extends Bounded {
  readonly source: Source;
  /** Of the part; `batter` of the pot. */
  readonly name: string;
}

/** How much of one lot of one line went into a mould, as weighed: nothing has reacted or dried. */
export interface MouldMaterial extends Bounded {
  readonly line: LineId;
  readonly material: { readonly id: MaterialId; readonly name: string; readonly class: MaterialClass };
  /** `null`: no lot was stated. */
  readonly lot: { readonly id: LotId; readonly mark: string } | null;
}

/** One mould of a batch as it was poured. */
export interface MouldMade {
  /** "26-11/1": the batch's mark and the mould's number. */
  readonly mark: string;
  readonly n: number;
  /** What the mould is called in the workshop. */
  readonly name: string;
  /** Id of the mould in the workshop; `null` in plans that name none. */
  readonly mould: string | null;
  /** To the brim; `null` where nobody has said. */
  readonly brimMl: number | null;
  readonly pattern: Pattern | null;
  /** `null`: nobody weighed it, and nobody typed it. */
  readonly mass: Milligrams | null;
  /** A person stated some of its mass. */
  readonly byHand: boolean;
  /** `unknown`: how much came from which jug was not weighed; its label takes all of them. */
  readonly shares: 'known' | 'unknown';
  readonly parts: readonly MouldShare[];
  /** In the order of the batch's lines; those that may be in it at all. Their masses add up to the mould's where they are known. */
  readonly materials: readonly MouldMaterial[];
}

/** A mould and what was poured into it; a portion of an older or plainer batch is what one mould got from the pot. */
interface Filled extends PlanMould {
  readonly pours: readonly MouldPour[];
}

const asPour = ({ mass, entry, byHand }: Portion, mould: number): MouldPour => ({
  entry,
  mass,
  byHand,
  struck: null,
  mould,
  from: ['pot'],
  by: byHand ? 'by-hand' : 'loss',
});

/** Portions stand for the moulds in their order: first those of the plan that nothing else was poured into, then moulds of their own. */
const filled = (state: BatchState): readonly Filled[] => {
  const planned = mouldsIn(state).map((mould) => ({ ...mould, pours: standing(state.pour.pours).filter((one) => one.mould === mould.n) }));
  const portions = [...state.parts];
  const given = planned.map((mould) => {
    const portion = mould.pours.length === 0 ? portions.shift() : undefined;
    return portion === undefined ? mould : { ...mould, pours: [asPour(portion, mould.n)] };
  });
  const next = Math.max(0, ...given.map(({ n }) => n)) + 1;
  return [
    ...given,
    ...portions.map((portion, at): Filled => {
      const n = next + at;
      return { n, mould: '', name: portion.name, brimMl: null, mass: null, pattern: null, pours: [asPour(portion, n)] };
    }),
  ];
};

const bounded = (low: number, high: number): Bounded => ({ mass: low === high ? mg(low) : null, low: mg(low), high: mg(high) });

const sourceName = ({ plan }: BatchState, source: Source): string =>
  (plan.parts ?? []).find(({ id }) => source === `part:${id}`)?.name ?? 'batter';

const materialOf = (state: BatchState, { line, lot, low, high }: LottedBounds): readonly MouldMaterial[] => {
  const plan = own(state.lines, line)?.plan;
  return plan === undefined ? [] : [{ line, material: plan.material, lot, ...bounded(low, high) }];
};

const made = (state: BatchState, { pours, ...mould }: Filled): MouldMade => {
  const contents = memo((source: Source) => contentsOf(state, source));
  const shares = pours.map((pour) => sharesOf(state, pour));
  const mass = pours.length === 0 ? null : massOf(pours);
  const maybe = mass !== null || state.joined === null ? [] : sourcesOf(state).map((source) => anything(state, source));
  const materials = added([...pours.flatMap((pour, at) => inPour(pour.mass, shares[at] ?? [], contents)), ...perhaps(maybe, contents)]);
  return {
    mark: `${state.mark}/${mould.n}`,
    n: mould.n,
    name: mould.name,
    mould: mould.mould === '' ? null : mould.mould,
    brimMl: mould.brimMl,
    pattern: mould.pattern,
    mass,
    byHand: pours.some(({ byHand }) => byHand),
    shares: mass !== null && shares.every(isKnown) ? 'known' : 'unknown',
    parts: partsOf(state, [...shares.flat(), ...maybe]),
    materials: inOrder(state, materials).flatMap((one) => materialOf(state, one)),
  };
};

const anything = (state: BatchState, source: Source): SourceBounds => ({
  source,
  low: mg(0),
  high: mg(mayHaveGiven(state, source).most),
});

const partsOf = (state: BatchState, shares: readonly SourceBounds[]): readonly MouldShare[] =>
  sourcesOf(state).flatMap((source) => {
    const mine = shares.filter((one) => one.source === source);
    const sum = (end: 'low' | 'high'): number => mine.reduce((all, one) => all + one[end], 0);
    return mine.length === 0 ? [] : [{ source, name: sourceName(state, source), ...bounded(sum('low'), sum('high')) }];
  });

/** As the lines of the batch stand; lots of one line as they were poured. */
const inOrder = ({ order }: BatchState, materials: readonly LottedBounds[]): readonly LottedBounds[] =>
  order.flatMap((id) => materials.filter(({ line }) => line === id));

const memo = <K, V>(make: (key: K) => V): ((key: K) => V) => {
  const known = new Map<K, V>();
  return (key) => {
    const before = known.get(key);
    if (before !== undefined) return before;
    const value = make(key);
    known.set(key, value);
    return value;
  };
};

/** Every mould of a batch as it was poured, by number: planned ones, and those that portions of a plainer batch went into. */
export const mouldsOf = (state: BatchState): readonly MouldMade[] => filled(state).map((mould) => made(state, mould));

/** One mould of a batch; `null` when it has none of this number. What is in it follows from actual weights alone. */
export const compositionOf = (state: BatchState, n: number): MouldMade | null => mouldsOf(state).find((mould) => mould.n === n) ?? null;
