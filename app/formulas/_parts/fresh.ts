import type { Formula } from '#lib/work/formula/index';
import type { Habits } from '#lib/work/shelf/documents';

const LETTERS = 12;

/** A name for a document made on this page. */
export const freshId = (kind: string): string =>
  `${kind}-${[...crypto.getRandomValues(new Uint8Array(LETTERS))].map((byte) => (byte % 36).toString(36)).join('')}`;

/** Nothing said yet but what this maker has said once for all. */
export const freshFormula = (habits: Habits | null): Formula => ({
  id: freshId('formula'),
  name: '',
  version: 1,
  note: '',
  entries: [],
  blends: [],
  wishes: { superfat: habits?.superfat ?? null, lye: habits?.lye ?? null },
  size: null,
  moulds: [],
  limits: { superfat: null, lye: null },
  temperatures: null,
  references: [],
});
