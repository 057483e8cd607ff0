import { sumOf } from '#lib/units/sum';

/** What went in of one lot. */
export interface Used {
  readonly material: string;
  readonly lot: string | null;
  /** mg, as weighed. */
  readonly mass: number;
  /** Money for a gram of that lot; `null` where its receipt does not say. */
  readonly perGram: number | null;
}

export interface BarCost {
  /** For one bar for sale, in the maker's money. */
  readonly materials: number;
  readonly packaging: number;
  readonly time: number;
  readonly whole: number;
  /** Materials whose price nobody has noted: the cost is that much more. */
  readonly unknown: readonly string[];
  /** By material, dearest first. */
  readonly of: readonly { readonly material: string; readonly each: number }[];
}

/**
 * What one bar for sale costs. Everything that went into the batch is borne by the bars that are sold: ends, testers and what stuck to the
 * pot too.
 * @param minutes of work on the whole batch; `null` where nobody has said: no time is counted
 * @param rate money an hour
 */
export const costOfBar = (
  used: readonly Used[],
  bars: number,
  packaging: readonly { readonly perBar: number; readonly price: number }[],
  minutes: number | null,
  rate: number | null,
): BarCost | null => {
  if (bars < 1) return null;
  const names = [...new Set(used.map(({ material }) => material))];
  const of = names
    .map((material) => ({
      material,
      each: sumOf(used, (one) => (one.material === material ? ((one.perGram ?? 0) * one.mass) / 1000 : 0)) / bars,
    }))
    .toSorted((a, b) => b.each - a.each);
  const materials = sumOf(of, ({ each }) => each);
  const wraps = sumOf(packaging, ({ perBar, price }) => perBar * price);
  const time = minutes === null || rate === null ? 0 : ((minutes / 60) * rate) / bars;
  return {
    materials,
    packaging: wraps,
    time,
    whole: materials + wraps + time,
    unknown: names.filter((name) => used.some(({ material, perGram }) => material === name && perGram === null)),
    of,
  };
};
