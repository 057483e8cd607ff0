import { sumOf } from '#lib/units/sum';
import type { BarsSummary } from '../bars/index';
import { numberOf } from '../formula/index';
import type { Goods } from './documents';
import { pricePerOne } from './price';

/** Pieces drawn of wraps: by goods, then by mark of the lot; those of no lot under the empty mark. */
export type Drawn = Readonly<Record<string, Readonly<Record<string, number>>>>;

/** A lot of a wrap as it stands now; `lot` `null`: what is in none. */
export interface WrapOnHand {
  readonly lot: string | null;
  /** Pieces; below zero where more was used than was ever counted. `null`: nobody has counted. */
  readonly left: number | null;
  /** Money for a pack of it, as typed; `null`: as the goods say. */
  readonly price: string | null;
}

/** Everything that wrappings which stand have used. A crossing-out gives back by not being among them. */
export const drawnBy = (rows: readonly Pick<BarsSummary, 'wrapped'>[]): Drawn => {
  const sums: Record<string, Record<string, number>> = {};
  for (const { goods, lot, pieces } of rows.flatMap(({ wrapped }) => wrapped?.used ?? [])) {
    const of = (sums[goods] ??= {});
    of[lot ?? NO_LOT] = (of[lot ?? NO_LOT] ?? 0) + pieces;
  }
  return sums;
};

const NO_LOT = '';

/** Pieces drawn so far of one lot of a wrap. */
export const drawnOf = (drawn: Drawn, goods: string, lot: string | null): number => drawn[goods]?.[lot ?? NO_LOT] ?? 0;

/** What there is of a wrap by its lots, in the order they are used: what is in no lot first. Counted less what was drawn since. */
export const wrapOnHand = ({ id, onHand, drawn: before = 0, lots = [] }: Goods, drawn: Drawn): readonly WrapOnHand[] => {
  const loose = onHand === null ? null : onHand - (drawnOf(drawn, id, null) - before);
  const inLots = lots.map(({ mark, price, ...counted }) => ({
    lot: mark,
    left: counted.onHand - (drawnOf(drawn, id, mark) - counted.drawn),
    price,
  }));
  return onHand === null && inLots.length > 0 ? inLots : [{ lot: null, left: loose, price: null }, ...inLots];
};

/** All of it, as the books have it; where nobody has counted, less than nothing by what was used. */
export const piecesOnHand = (goods: Goods, drawn: Drawn): number =>
  sumOf(wrapOnHand(goods, drawn), ({ lot, left }) => left ?? -drawnOf(drawn, goods.id, lot));

/** Pieces of a wrap on one bar of a formula; 0 where it goes around none of them. */
export const perBarOf = ({ kind, perBar, only }: Goods, formula: string): number =>
  kind === 'wrap' && perBar !== null && (only === undefined || only === formula) ? Math.max(0, numberOf(perBar) ?? 0) : 0;

/** Pieces of a wrap that so many bars of a formula take: of a box for twelve a begun one counts whole. */
export const piecesFor = (goods: Goods, formula: string, bars: number): number =>
  Math.max(0, Math.ceil(perBarOf(goods, formula) * bars - 1e-9));

/** From which lots so many pieces come: the first as far as it goes, then the next. What is short comes from the last. */
export const drawFrom = (
  lots: readonly WrapOnHand[],
  pieces: number,
): { readonly from: readonly { readonly lot: string | null; readonly pieces: number }[]; readonly short: number | null } => {
  if (pieces < 1) return { from: [], short: 0 };
  if (lots.some(({ left }) => left === null)) return { from: [{ lot: lots[0]?.lot ?? null, pieces }], short: null };
  let missing = pieces;
  const from = lots.flatMap(({ lot, left }) => {
    const taken = Math.max(0, Math.min(missing, left ?? 0));
    missing -= taken;
    return taken > 0 ? [{ lot, pieces: taken }] : [];
  });
  if (missing === 0) return { from, short: 0 };
  const last = from.at(-1)?.lot ?? lots.at(-1)?.lot ?? null;
  const others = from.filter(({ lot }) => lot !== last);
  const got = from.find(({ lot }) => lot === last)?.pieces ?? 0;
  return { from: [...others, { lot: last, pieces: got + missing }], short: missing };
};

/** Money for a piece of one lot of a wrap; `null` where nobody has said. */
export const pricePerPiece = (goods: Goods | undefined, lot: string | null): number | null => {
  const own = goods?.lots?.find(({ mark }) => mark === lot)?.price;
  return pricePerOne(own ?? goods?.price, goods?.pack);
};
