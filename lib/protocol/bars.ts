import type { BarsSummary } from '#lib/work/bars/index';

/** One bar lot in a row of the list. */
export type BarsRow = BarsSummary;

/** GET /api/bars?before=&limit= */
export interface BarsList {
  readonly bars: readonly BarsRow[];
  readonly next: string | null;
}
