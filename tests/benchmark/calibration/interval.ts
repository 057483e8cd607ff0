/** A share that was counted. */
export interface Share {
  readonly seen: number;
  readonly of: number;
}

export const rateOf = ({ seen, of }: Share): number => (of === 0 ? Number.NaN : seen / of);

const Z = 1.96;

/** 95 % interval of a binomial share (Wilson): right for few and for none as well. */
export const intervalOf = ({ seen, of }: Share): { readonly low: number; readonly high: number } => {
  if (of === 0) return { low: 0, high: 1 };
  const p = seen / of;
  const middle = (p + (Z * Z) / (2 * of)) / (1 + (Z * Z) / of);
  const half = (Z / (1 + (Z * Z) / of)) * Math.sqrt((p * (1 - p)) / of + (Z * Z) / (4 * of * of));
  return { low: Math.max(0, middle - half), high: Math.min(1, middle + half) };
};

/** One-sided 95 % bound on a rate of which none was seen. */
export const boundWhenNone = (of: number): number => 1 - 0.05 ** (1 / Math.max(of, 1));

export const quantile = (values: readonly number[], share: number): number =>
  values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * share))] ?? Number.NaN;
