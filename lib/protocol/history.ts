import type { BatchPoints } from '#lib/work/history/points';

/** GET /api/history?formula=&limit=: the newest finished batches, oldest first. */
export interface HistoryPage {
  readonly batches: readonly BatchPoints[];
  /** There are older ones. */
  readonly more: boolean;
  /** Names by id of the scales and people that occur; what is not here has no name. */
  readonly scales: Readonly<Record<string, string>>;
  readonly people: Readonly<Record<string, string | null>>;
}

/** Most batches one picture is drawn of. */
export const MOST_POINTS = 120;
