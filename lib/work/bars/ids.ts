import { as } from '#lib/units/id';
import type { BarsId, BatchId } from '#lib/units/id';

/** Every kind of entry about bars begins so; a line of the bench journal is told by it before anything else of it is read. */
const BARS = 'bars-';
const KEY = 'bars:';

/** The key of a bar lot in the bench journal: its batch and the number of its mould (the first, where several went together). */
export const barsIdOf = (batch: BatchId, n: number): BarsId => as(`${KEY}${batch}/${n}`);
export const isBarsId = (stream: string): boolean => stream.startsWith(KEY);

/** Whether a stored value, of whatever kind, is an entry about bars. Everything else of the bench journal is about batches. */
export const isAboutBars = (value: unknown): boolean => {
  if (typeof value !== 'object' || value === null) return false;
  const { kind } = value as { readonly kind?: unknown };
  return typeof kind === 'string' && kind.startsWith(BARS);
};
