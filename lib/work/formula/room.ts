import { purity } from '#lib/soap/check';
import type { Balance } from './chemistry';
import { numberOf } from './figure';
import type { Item, Model } from './model';
import type { PerGram } from '#lib/soap/poured/per-gram';
import type { Whole } from './whole';

/** Σ cᵢ/Lᵢ of the batch's fragrances and each one's limit, `null` where nobody typed one. */
export interface FragranceRoom {
  /** Grams of the bars at their lowest mass. */
  readonly driest: number;
  readonly sum: number | null;
  readonly limits: ReadonlyMap<Item, number | null>;
}

/** The limit of a fragrance, as a fraction: of its lot's certificate, nowhere else. */
export const limitOf = ({ found }: Item): number | null => {
  const percent = numberOf(found.lot?.certificate?.limit ?? '');
  return percent === null ? null : purity(percent / 100, 'a limit');
};

export const fragranceRoom = ({ items }: Model, { grams }: Whole, driest: number): FragranceRoom => {
  const limits = new Map(items.filter(({ part }) => part === 'fragrance').map((item) => [item, limitOf(item)] as const));
  let sum: number | null = 0;
  for (const [at, item] of items.entries()) {
    const limit = limits.get(item);
    if (limit === undefined) continue;
    sum = limit === null || sum === null ? null : sum + (grams[at] ?? 0) / driest / limit;
  }
  return { driest, sum, limits };
};

/** An additive or colourant may stand this far over without a word: nothing depends on it but looks. Ours, no source. */
const EXTRA = 0.25;

/** Most grams more of one line alone, all else as planned, that keep every limit of the formula; `null` when nobody can say. */
export const roomAbove = (model: Model, whole: Whole, balance: Balance, fragrances: FragranceRoom, at: number): number | null => {
  const item = model.items[at] as Item;
  const mass = whole.grams[at] ?? 0;
  const one = balance.per[at] as PerGram;
  const rooms = [...superfatRoom(balance, one), ...lyeRoom(balance, one), ...shareRoom(model, whole, at)];
  if (item.part === 'fragrance') {
    const limit = fragrances.limits.get(item) ?? null;
    if (limit === null || fragrances.sum === null) return null;
    rooms.push((1 - fragrances.sum) * limit * fragrances.driest);
  }
  if (item.part === 'extra') rooms.push(EXTRA * mass);
  return rooms.length === 0 ? null : Math.max(0, Math.min(...rooms));
};

const positive = (values: readonly number[]): readonly number[] => values.filter((value) => Number.isFinite(value) && value >= 0);

/** 1 − (net + (n − a) x) ÷ (D + d x) = limit, for both ends. */
const superfatRoom = ({ demand, acid, supply, superfatBand }: Balance, one: PerGram): readonly number[] => {
  const net = supply - acid;
  const gives = one.supply - one.acid;
  if (gives === 0 && one.demand === 0) return [];
  // Already outside: no room at all.
  const now = 1 - net / demand;
  if (now < superfatBand[0] || now > superfatBand[1]) return [0];
  return positive(superfatBand.map((limit) => ((1 - limit) * demand - net) / (gives - (1 - limit) * one.demand)));
};

/** (P + p x) ÷ (S + σ x) = limit, for both ends. */
const lyeRoom = ({ pure, solution, lyeBand }: Balance, one: PerGram): readonly number[] => {
  if (one.solution === 0) return [];
  const now = pure / solution;
  if (now < lyeBand[0] || now > lyeBand[1]) return [0];
  return positive(lyeBand.map((limit) => (limit * solution - pure) / (one.pure - limit * one.solution)));
};

/** A fat's own share may grow to the top of its band, and pushes the others down to the foot of theirs. */
const shareRoom = ({ items }: Model, { grams, fats }: Whole, at: number): readonly number[] => {
  if (items[at]?.part !== 'fat') return [];
  return items.flatMap((item, other) => {
    const band = item.part === 'fat' ? item.entry.keep : null;
    if (band === null) return [];
    const [low, high] = [(numberOf(band.low) ?? 0) / 100, (numberOf(band.high) ?? 100) / 100];
    const mass = grams[other] ?? 0;
    if (other === at) return high >= 1 ? [] : [Math.max(0, (high * fats - mass) / (1 - high))];
    return low <= 0 ? [] : [Math.max(0, mass / low - fats)];
  });
};
