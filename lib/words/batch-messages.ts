import type { BatchListRow } from '#lib/protocol/http';
import { counted } from './words';

/** Words of the table of batches, which Today and Batches share. */
export const batchMessages = {
  caption: 'Batches, newest first',
  heads: {
    batch: 'batch',
    made: 'begun',
    status: 'now',
    lines: 'lines',
    planned: 'planned',
    actual: 'actual',
    overPours: 'over-pours',
    overrides: 'overrides',
    byHand: 'by hand',
  },
  sum: (mark: string, mass: string) => `${mass}. Workings: the review of ${mark}`,
  /** Where there is no room for three columns; nothing for nothing. */
  departures: ({ overPours, overrides, byHand, stated = 0 }: Pick<BatchListRow, 'overPours' | 'overrides' | 'byHand' | 'stated'>) =>
    [
      ...(overPours > 0 ? [counted(overPours, 'over-pour')] : []),
      ...(overrides > 0 ? [counted(overrides, 'override')] : []),
      ...(byHand > 0 ? [`${counted(byHand, 'weight')} by hand`] : []),
      ...(stated > 0 ? [counted(stated, 'deviation')] : []),
    ].join(', '),
  linesOf: (closed: number, of: number) => (closed === of ? String(of) : `${closed} of ${of}`),
  status: {
    weighing: 'being weighed',
    joined: 'joined',
    parked: 'parked',
    abandoned: 'stopped early',
    closed: 'finished',
  } satisfies Record<BatchListRow['status'], string>,
} as const;
