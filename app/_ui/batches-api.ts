import * as z from 'zod/mini';
import type { ArchiveTicket, BackupsPage } from '#lib/protocol/export';
import type { BatchFind, FormulaNames } from '#lib/protocol/find';
import type { HistoryPage } from '#lib/protocol/history';
import type { BatchList, BatchListRow } from '#lib/protocol/http';
import { batchesPath } from '../_live/http';
import { ask, BATCHES } from './api';
import type { Answer } from './api';

/** What pages about many batches ask, beside the list itself. Nothing throws. */

const OUTLINES = {
  formulas: z.looseObject({ formulas: z.array(z.string()) }),
  history: z.looseObject({
    batches: z.array(
      z.looseObject({ mark: z.string(), wall: z.number(), lines: z.array(z.looseObject({ material: z.string(), away: z.int() })) }),
    ),
    more: z.boolean(),
  }),
  archive: z.looseObject({ path: z.string() }),
  backups: z.looseObject({
    folder: z.string(),
    backups: z.array(z.looseObject({ name: z.string(), wall: z.number(), bytes: z.number() })),
  }),
};

/** What is asked for as the list's address has it; what is left out narrows nothing. */
const queryOf = (find: BatchFind): string =>
  new URLSearchParams(Object.entries(find).flatMap(([key, value]) => (value === undefined ? [] : [[key, String(value)]]))).toString();

export const batchesApi = {
  find: (find: BatchFind, before: string | null, limit: number, status: BatchListRow['status'] | null = null): Promise<Answer<BatchList>> =>
    ask(BATCHES, `${batchesPath(before, limit, status)}&${queryOf(find)}`),
  formulas: (): Promise<Answer<FormulaNames>> => ask(OUTLINES.formulas, '/api/batches/formulas'),
  history: (formula: string | null): Promise<Answer<HistoryPage>> =>
    ask(OUTLINES.history, `/api/history${formula === null ? '' : `?formula=${encodeURIComponent(formula)}`}`),
  backups: (): Promise<Answer<BackupsPage>> => ask(OUTLINES.backups, '/api/export/backups'),
  archive: (): Promise<Answer<ArchiveTicket>> => ask(OUTLINES.archive, '/api/export/archive', {}),
  backUpNow: (): Promise<Answer<BackupsPage>> => ask(OUTLINES.backups, '/api/export/backups', {}),
} as const;
