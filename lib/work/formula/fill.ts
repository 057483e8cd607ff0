import { sumOf } from '#lib/units/sum';
import type { Calibration } from './context';
import { decimal, type Decimal } from './figure';
import { problem, type Problem } from './problem';
import { createReader, HEAVIEST_GRAMS, type Reader } from './reader';

/**
 * How full the moulds of one batch really got, by whom poured it. Its id is the batch's. What was computed stands beside it as it was then,
 * so that no later catalogue changes what the batch taught.
 */
export interface Fill {
  readonly id: string;
  /** The batch's mark, as read aloud. */
  readonly mark: string;
  /** The batter as computed for what was really weighed, by its parts and without any calibration: cm³ and grams. */
  readonly computed: { readonly volume: Decimal; readonly grams: Decimal };
  /** What the plan took off: grams that stay in the pot, % lost in pouring. */
  readonly residue: Decimal;
  readonly pourLoss: Decimal;
  readonly moulds: readonly FilledMould[];
}

export interface FilledMould {
  readonly mould: string;
  readonly name: string;
  readonly count: number;
  /** cm³ of one, to the brim. */
  readonly brim: Decimal;
  /** % of the brim; empty where nobody looked, or it ran over. */
  readonly full: Decimal;
  /** Grams of batter in one, where it was weighed. */
  readonly grams: Decimal | null;
}

/** Further off than this is no density but a slip: half as much air as soap, or a mould left out. */
const LEAST = 0.7;
const MOST = 1.4;
const MOST_MOULDS = 1000;

/** True volume over computed volume; `null` after noting why there is none. */
const ratioOf = ({ computed, residue, pourLoss, moulds }: Fill, reader: Reader): number | null => {
  const volume = reader.above(computed.volume, 'computed.volume', HEAVIEST_GRAMS);
  const grams = reader.above(computed.grams, 'computed.grams', HEAVIEST_GRAMS);
  const left = reader.within(residue, 'residue', 0, HEAVIEST_GRAMS);
  const lost = reader.within(pourLoss, 'pourLoss', 0, 50);
  // One that was weighed says enough; of the others nobody need have looked.
  const enough = moulds.some(({ full, grams: one }) => full.trim() !== '' && one !== null);
  const each = moulds.map((one, at) => {
    const path = `moulds[${at}]`;
    const count = reader.count(one.count, `${path}.count`, MOST_MOULDS);
    const brim = reader.above(one.brim, `${path}.brim`, HEAVIEST_GRAMS);
    const full = enough && one.full.trim() === '' ? null : reader.percent(one.full, `${path}.full`, 'above-zero');
    const weighed = one.grams === null || full === null ? null : reader.above(one.grams, `${path}.grams`, HEAVIEST_GRAMS);
    return { count: count ?? 0, volume: (full ?? 0) * (brim ?? 0), weighed };
  });
  if (moulds.length === 0) reader.note('missing', 'moulds');
  if (reader.problems.length > 0 || volume === null || grams === null || left === null || lost === null) return null;
  const density = grams / volume;
  const sure = each.filter((one) => one.weighed !== null);
  // What was weighed into a mould says its density by itself, whatever stayed in the pot.
  const found = sumOf(sure.length > 0 ? sure : each, (one) => one.count * one.volume);
  const expected =
    sure.length > 0 ? sumOf(sure, (one) => one.count * (one.weighed ?? 0)) / density : (volume - left / density) * (1 - lost / 100);
  const ratio = found / expected;
  return ratio >= LEAST && ratio <= MOST ? ratio : reader.note('out-of-range', 'moulds', { value: ratio, low: LEAST, high: MOST });
};

/** What is wrong with one document; nothing when it teaches a density. */
export const checkFill = (fill: Fill): readonly Problem[] => {
  const reader = createReader();
  const ratio = ratioOf(fill, reader);
  return ratio === null && reader.problems.length === 0 ? [problem('missing', 'moulds')] : reader.problems;
};

/** A level looked at in one batch, and the air of one stirring, are worth this much before others say more. A judgement. */
const ONE_BATCH = 0.03;

/**
 * What this maker's own batches say of the computed volume; `null` before one does. The factor is their mean. Its uncertainty is that of the
 * *next* batch: their scatter about the mean, with one batch's worth of prior doubt in it, and what the mean itself is off by.
 */
export const calibrationFrom = (fills: readonly Fill[]): Calibration | null => {
  const from = fills.flatMap((fill) => {
    const ratio = ratioOf(fill, createReader());
    return ratio === null ? [] : [{ mark: fill.mark, factor: ratio }];
  });
  const count = from.length;
  if (count === 0) return null;
  const mean = sumOf(from, ({ factor }) => factor) / count;
  const variance = (ONE_BATCH ** 2 + sumOf(from, ({ factor }) => (factor - mean) ** 2)) / count;
  return {
    factor: decimal(mean),
    u: decimal(Math.sqrt(variance * (1 + 1 / count))),
    batches: count,
    from: from.map(({ mark, factor }) => ({ mark, factor: decimal(factor) })),
  };
};
