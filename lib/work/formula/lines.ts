import type { ScaleRole } from '#lib/measure/instrument';
import { as, type LineId } from '#lib/units/id';
import { mg, type Milligrams } from '#lib/units/mass';
import { sumOfAll } from '#lib/units/sum';
import type { LinePhase, LinePlan, MaterialClass } from '../batch/plan';
import type { LineFigures } from './answer';
import { lyePerGram, superfatPerGram, type Balance } from './chemistry';
import type { Scale } from './context';
import type { Item, Model } from './model';
import type { PerGram } from '#lib/soap/poured/per-gram';
import { inJug } from './per-gram';
import { goesInPot, OF_CAPACITY, type Place, type Places } from './places';
import { roomAbove, type FragranceRoom } from './room';
import { scaleFor, serviceOf, toleranceOn, type Load } from './scales';
import type { Whole } from './whole';

/** What a line may be off by, from what it does. Ours where no limit of the formula says otherwise: points as fractions. */
const POINTS = { superfat: 0.003, lye: 0.003 } as const;
const OF_TARGET = { plain: 0.01, extra: 0.02 } as const;
/** Of a fragrance's room to its limit, at most this much is spent on the hand. */
const OF_ROOM = 0.5;

export interface Wanted {
  /** Grams. */
  readonly grams: number;
  readonly by: LineFigures['tolerance']['by'];
}

/** The narrowest of what superfat, lye, limits and the line's own share ask. */
export const wantedOf = (model: Model, whole: Whole, balance: Balance, room: number | null, at: number): Wanted => {
  const item = model.items[at] as Item;
  const one = balance.per[at] as PerGram;
  const mass = whole.grams[at] ?? 0;
  const superfat = Math.abs(superfatPerGram(balance, one));
  const lye = Math.abs(lyePerGram(balance, one));
  const share = item.part === 'extra' ? OF_TARGET.extra : OF_TARGET.plain;
  const asked: readonly Wanted[] = [
    { grams: share * mass, by: 'share' },
    ...(superfat > 0 ? [{ grams: POINTS.superfat / superfat, by: 'superfat' as const }] : []),
    ...(lye > 0 ? [{ grams: POINTS.lye / lye, by: 'lye' as const }] : []),
    ...(item.part === 'fragrance' && room !== null && room > 0 ? [{ grams: OF_ROOM * room, by: 'fragrance-limit' as const }] : []),
  ];
  return asked.reduce((least, one) => (one.grams < least.grams ? one : least));
};

/** Whole milligrams that add up to the whole batch's: each within one of its own figure, the largest remainders rounded up. */
export const inMilligrams = (grams: readonly number[]): readonly Milligrams[] => {
  const exact = grams.map((one) => one * 1000);
  const total = Math.round(sumOfAll(exact));
  const floors = exact.map(Math.floor);
  const missing = total - sumOfAll(floors);
  const first = exact
    .map((one, at) => ({ at, rest: one - Math.floor(one) }))
    .toSorted((a, b) => b.rest - a.rest || a.at - b.at)
    .slice(0, missing);
  const up = new Set(first.map(({ at }) => at));
  return floors.map((one, at) => mg(one + (up.has(at) ? 1 : 0)));
};

export interface LineFacts {
  readonly model: Model;
  readonly whole: Whole;
  readonly balance: Balance;
  readonly fragrances: FragranceRoom;
  readonly targets: readonly Milligrams[];
  readonly wanted: readonly Wanted[];
  readonly places: Places;
  readonly scales: readonly Scale[];
}

export interface Line {
  readonly at: number;
  readonly item: Item;
  readonly plan: LinePlan;
  readonly figures: LineFigures;
  readonly scale: Scale | null;
  /** What stands on the scale at the most, mg; without the vessel where nobody has said what that weighs. */
  readonly gross: number;
}

export const phaseOf = (item: Item, place: Place, jug: Places['jug']): LinePhase => {
  if (item.part === 'alkali') return 'hydroxide';
  if (goesInPot(item)) return 'oils';
  if (item.entry.goes === 'trace') return 'trace';
  return inJug(item) && place.vessel === jug ? 'liquid' : 'aside';
};

/** Hard fats by what melts last, liquid oils, what waits in a cup, liquid, hydroxide, and what goes in at trace. */
const order = (phase: LinePhase, kind: MaterialClass, item: Item): number => {
  const hardest = Math.max(0, ...item.found.makeup.fats.map(({ melting }) => melting?.high ?? 0));
  if (phase === 'oils') return kind === 'hard-oil' ? -hardest : item.part === 'fat' ? 1 : 2;
  // A dry acid or sugar is in the liquid before the liquid is frozen or milk: whatever pours goes in first.
  if (phase === 'liquid') return item.part === 'liquid' ? 20 : 21;
  return { aside: 10, hydroxide: 30, trace: 40 }[phase];
};

/** The plan's lines in the order of work. */
export const linesOf = (facts: LineFacts): readonly Line[] => {
  const { model, places } = facts;
  const drafts = model.items.map((item, at) => {
    const phase = phaseOf(item, places.of[at] as Place, places.jug);
    return { item, at, phase, order: order(phase, item.class, item) };
  });
  const filled = new Map<string, number>();
  return drafts.toSorted((a, b) => a.order - b.order || a.at - b.at).map(({ item, at, phase }) => lineOf(facts, item, at, phase, filled));
};

const lineOf = (facts: LineFacts, item: Item, at: number, phase: LinePhase, filled: Map<string, number>): Line => {
  const { model, whole, balance, fragrances, targets, wanted, places, scales } = facts;
  const { vessel, into, byLoss } = places.of[at] as Place;
  const target = targets[at] as Milligrams;
  const want = wanted[at] as Wanted;
  const under = into === null ? (filled.get(vessel.id) ?? 0) : 0;
  if (into === null) filled.set(vessel.id, under + target);
  const most = byLoss ? perBottle(scales) : into === null ? null : perPour(vessel, scales);
  const pours = poursOf(target, scales.length === 0 ? null : most);
  const atOnce = Math.max(...pours);
  const gross = byLoss || vessel.empty === null ? null : vessel.empty + under + atOnce;
  const least = byLoss ? atOnce : under + atOnce;
  const load: Load = { target, wanted: want.grams * 1000, gross, least };
  const scale = scaleFor(scales, load);
  const tolerance = toleranceOn(scale, load.wanted);
  const above = roomAbove(model, whole, balance, fragrances, at);
  const perGram = superfatPerGram(balance, balance.per[at] as PerGram);
  const id = as<LineId>(item.entry.id);
  const role: ScaleRole = scale?.role ?? 'main';
  const lot = item.found.lot;
  return {
    at,
    item,
    scale,
    gross: gross ?? least,
    plan: {
      id,
      material: { id: as(item.found.id), name: item.found.name, class: item.class },
      phase,
      target,
      tolerance,
      upper: above === null ? null : mg(target + Math.floor(above * 1000)),
      vessel: vessel.id,
      ...(into === null ? {} : { into: into.id }),
      ...(pours.length === 1 ? {} : { atOnce: mg(atOnce) }),
      ...(phase === 'hydroxide' && vessel === places.jug ? { inSolution: true as const } : {}),
      ...(phase === 'liquid' && item.entry.frozen ? { frozen: true as const } : {}),
      scale: role,
      mode: byLoss ? 'loss' : 'gain',
      canWait: phase === 'aside',
      lot: lot === null ? null : { id: as(lot.id), mark: lot.mark },
      superfatPerGram: Math.round(1e5 * perGram),
      ...(item.entry.intoPart === undefined ? {} : { part: item.entry.intoPart }),
    },
    figures: {
      line: id,
      entry: item.entry.id,
      grams: whole.grams[at] ?? 0,
      shareOfPart: shareOfPart(facts, item, at),
      shareOfBatter: (whole.grams[at] ?? 0) / whole.batter,
      superfatPerGram: perGram,
      tolerance: { wanted: mg(Math.floor(load.wanted)), by: tolerance > load.wanted ? 'scale' : want.by },
      scale: serviceOf(scale, load, scales),
      pours,
    },
  };
};

/** Alkali by moles, everything else by mass within its part. */
const shareOfPart = ({ model, whole, balance }: LineFacts, item: Item, at: number): number => {
  const weight = (other: number): number => (whole.grams[other] ?? 0) * (item.part === 'alkali' ? (balance.per[other]?.supply ?? 0) : 1);
  const all = model.items.reduce((sum, other, i) => sum + (other.part === item.part ? weight(i) : 0), 0);
  return weight(at) / all;
};

/** A jug is filled to this much of its brim, with oil. */
const JUG_FILL = 0.85 * 0.9 * 1000;

/** Most milligrams of oil one carrying takes: what the jug holds and the scale bears under it. */
const perPour = (vessel: { readonly empty: number | null; readonly brimMl: number | null }, scales: readonly Scale[]): number | null => {
  const capacities = scales.flatMap(({ capacity }) => (capacity === null ? [] : [capacity]));
  const most = capacities.length === 0 ? null : Math.max(...capacities);
  const bears = most === null ? null : vessel.empty === null ? OF_CAPACITY * most : ROOM_LEFT * (most - vessel.empty);
  const takes = vessel.brimMl === null ? null : vessel.brimMl * JUG_FILL;
  const limits = [bears, takes].filter((limit) => limit !== null && limit > 0) as readonly number[];
  return limits.length === 0 ? null : Math.min(...limits);
};

/** So much of what a scale bears is poured: a hand that goes a little over is not stopped by the scale. */
const ROOM_LEFT = 0.97;

/** Most milligrams that leave one bottle on the scale; of the bottle itself nobody has said what it weighs. */
const perBottle = (scales: readonly Scale[]): number | null => {
  const capacities = scales.flatMap(({ capacity }) => (capacity === null ? [] : [capacity]));
  return capacities.length === 0 ? null : OF_CAPACITY * Math.max(...capacities);
};

/** Equal parts, the odd milligrams in the last. */
const poursOf = (target: Milligrams, most: number | null): readonly Milligrams[] => {
  const count = most === null || most >= target ? 1 : Math.ceil(target / most);
  const each = Math.floor(target / count);
  return Array.from({ length: count }, (_, at) => mg(at < count - 1 ? each : target - each * (count - 1)));
};
