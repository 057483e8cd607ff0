import type { Formula } from '#lib/work/formula/index';
import type { Habits } from '#lib/work/shelf/documents';
import { freshId } from '../../_ui/fresh-id';

export { freshId };

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
