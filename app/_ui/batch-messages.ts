import type { BatchListRow } from '#lib/protocol/http';

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
  linesOf: (closed: number, of: number) => (closed === of ? String(of) : `${closed} of ${of}`),
  status: {
    weighing: 'being weighed',
    joined: 'joined',
    parked: 'parked',
    abandoned: 'stopped early',
    closed: 'finished',
  } satisfies Record<BatchListRow['status'], string>,
} as const;
