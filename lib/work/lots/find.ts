import { dayOf } from '#lib/units/day';
import type { Day } from '#lib/units/day';
import type { Lot } from '../formula/index';
import { faultOf } from './fitness';
import type { LotFault } from './fitness';
import { isGtin, readScan } from './gs1';

/** What a barcode at a line comes to. `unclear`: several lots bear it, and which one is in the hand only a person can say. */
export type Found =
  | { readonly is: 'lot'; readonly lot: Lot; readonly fault: LotFault | null }
  | { readonly is: 'unknown' | 'unclear' }
  /** It is a lot of something else than the line asks for. */
  | { readonly is: 'other'; readonly lot: Lot };

const same = (a: string | undefined, b: string): boolean => a?.trim().toLocaleLowerCase() === b.trim().toLocaleLowerCase();

/** A number below bars, filled up to 14 digits; `null` when it is none. */
const gtinOf = (text: string): string | null => {
  const digits = /^\d{8}$|^\d{12,14}$/.test(text) ? text.padStart(14, '0') : '';
  return isGtin(digits) ? digits : null;
};

/** Lots that bear what was scanned: by their mark, by the lot number in an element string, or by the trade item's number. */
const bearing = (lots: readonly Lot[], text: string, wall: number): { readonly lots: readonly Lot[]; readonly until: Day | null } => {
  const marked = lots.filter(({ mark, id }) => same(mark, text) || id === text);
  if (marked.length > 0) return { lots: marked, until: null };
  const read = readScan(text, wall);
  if (read.ok) {
    const { gtin, lot: number, expiry, bestBefore } = read.said;
    const until = expiry ?? bestBefore;
    const ofItem = lots.filter((lot) => gtin === null || lot.gtin === undefined || lot.gtin === gtin);
    if (number !== null) return { lots: ofItem.filter(({ mark }) => same(mark, number)), until };
    return { lots: gtin === null ? [] : lots.filter((lot) => lot.gtin === gtin), until };
  }
  const gtin = gtinOf(text);
  return { lots: gtin === null ? [] : lots.filter((lot) => lot.gtin === gtin), until: null };
};

/**
 * The lot in the hand, by what the reader sent, for a line of one material (`null`: of any). Whatever was used up is not meant when
 * another bears the same; a day on the label earlier than the one written down counts.
 */
export const findLot = (all: readonly Lot[], text: string, material: string | null, now: { wall: number; offsetMin: number }): Found => {
  const { lots, until } = bearing(all, text.trim(), now.wall);
  const right = material === null ? lots : lots.filter((lot) => lot.material === material);
  const standing = right.filter(({ state }) => state !== 'used-up');
  const [lot, more] = standing.length > 0 ? standing : right;
  if (lot === undefined) return lots[0] === undefined ? { is: 'unknown' } : { is: 'other', lot: lots[0] };
  if (more !== undefined) return { is: 'unclear' };
  const bestBefore = until !== null && (lot.bestBefore === undefined || until < lot.bestBefore) ? until : lot.bestBefore;
  const fitness = { ...(lot.state === undefined ? {} : { state: lot.state }), ...(bestBefore === undefined ? {} : { bestBefore }) };
  return { is: 'lot', lot, fault: faultOf(fitness, dayOf(now.wall, now.offsetMin)) };
};
