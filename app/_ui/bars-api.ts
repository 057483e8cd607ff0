import * as z from 'zod/mini';
import type { BarsAnswer, BarsDue, BarsList, BarsPage, BarsWaiting, BarsWantAsk } from '#lib/protocol/bars';
import { ask } from './api';
import type { Answer } from './api';
import { freshId } from './fresh-id';

const count = z.int().check(z.gte(0));
const counts = z.looseObject({ made: count, shelf: count, sold: count });
const row = z.looseObject({
  id: z.string(),
  mark: z.string(),
  version: count,
  formula: z.looseObject({ name: z.string() }),
  mould: z.looseObject({ name: z.string(), gives: z.enum(['log', 'bars']) }),
  poured: z.number(),
  counts,
  weighings: z.array(z.looseObject({ wall: z.number(), bars: count, sum: z.int(), first: z.int() })),
});

/** The outline of each answer, as in `api`. */
const OUTLINES = {
  list: z.looseObject({ bars: z.array(row), next: z.nullable(z.string()) }),
  lot: z.looseObject({
    row,
    state: z.looseObject({ counts, weights: z.array(z.looseObject({})), photos: z.array(z.looseObject({})) }),
    story: z.array(z.looseObject({ code: z.string(), wall: z.number() })),
    record: z.looseObject({ entries: count }),
  }),
  due: z.looseObject({
    logs: z.array(z.looseObject({ id: z.string(), mark: z.string(), what: z.enum(['unmould', 'cut']), before: z.nullable(z.number()) })),
  }),
  waiting: z.looseObject({
    batches: z.array(z.looseObject({ batch: z.looseObject({ id: z.string(), mark: z.string() }), moulds: z.array(z.looseObject({})) })),
  }),
  answer: z.looseObject({ ok: z.boolean() }),
};

const lotPath = (id: string): string => `/api/bars/lot?id=${encodeURIComponent(id)}`;
/** A refusal answers in codes: 409 carries the same body as what was done. */
const REFUSED = 409;

const older = (before: string | null): string => (before === null ? '' : `&before=${encodeURIComponent(before)}`);

/** Bars, from their moulds until they are sold. Nothing throws. */
export const barsApi = {
  open: (): Promise<Answer<BarsList>> => ask(OUTLINES.list, '/api/bars/open'),
  list: (before: string | null, limit: number): Promise<Answer<BarsList>> => ask(OUTLINES.list, `/api/bars?limit=${limit}${older(before)}`),
  lot: (id: string): Promise<Answer<BarsPage>> => ask(OUTLINES.lot, lotPath(id)),
  due: (): Promise<Answer<BarsDue>> => ask(OUTLINES.due, '/api/bars/due'),
  waiting: (): Promise<Answer<BarsWaiting>> => ask(OUTLINES.waiting, '/api/bars/waiting'),
  begin: (batch: string, moulds: readonly number[]): Promise<Answer<BarsAnswer>> =>
    ask(OUTLINES.answer, '/api/bars', { intent: freshId('bars'), batch, moulds }, REFUSED),
  /** `version`: of the lot the page had before it. */
  want: (id: string, version: number, want: BarsWantAsk): Promise<Answer<BarsAnswer>> =>
    ask(OUTLINES.answer, lotPath(id), { intent: freshId('bars'), expectedVersion: version, want }, REFUSED),
} as const;
