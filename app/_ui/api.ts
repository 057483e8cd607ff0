import * as z from 'zod/mini';
import type { BatchList, BatchListRow, BatchPage, Health, HttpProblem, InstrumentsPage, RawFrames } from '#lib/protocol/http';
import type { InstrumentConfig } from '#lib/measure/instrument';
import { PASS_HEADER } from '#lib/protocol/people';
import { BATCH_STATUSES } from '#lib/work/batch/state';
import type { Carried } from '#lib/work/shelf/carry';
import { batchesPath } from '../_live/http';
import { preferences, token } from '../_live/preferences';
import { apiMessages } from './api-messages';

/** What came back: the value, or what happened, what was kept and what to do. `status` is `null` when nothing answered. */
export type Answer<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: HttpProblem; readonly status: number | null };

/** Longer than the slowest answer of a busy bench machine; a page that waits on says nothing. */
const PATIENCE_MS = 10_000;

const count = z.int().check(z.gte(0));
const problemBody = z.looseObject({ error: z.string(), kept: z.string(), todo: z.string() });
const row = z.looseObject({
  id: z.string(),
  mark: z.string(),
  name: z.string(),
  realm: z.enum(['real', 'practice', 'test']),
  status: z.enum(BATCH_STATUSES),
  startedWall: z.number(),
  endedWall: z.nullable(z.number()),
  lines: z.looseObject({ closed: count, of: count }),
  actual: z.int(),
  planned: z.int(),
  overPours: count,
  overrides: count,
  byHand: count,
});
const config = z.looseObject({ id: z.string(), kind: z.enum(['scale', 'probe']), name: z.string(), path: z.string() });

/** The outline of the list of batches, searched or not. */
export const BATCHES = z.looseObject({ batches: z.array(row), next: z.nullable(z.string()) });

/** The outline of each answer: enough that a page of another build, or another program on this port, is found out before it is drawn. */
const OUTLINES = {
  health: z.looseObject({ ok: z.boolean(), journal: z.looseObject({ readOnly: z.nullable(z.string()), seq: count }) }),
  batches: BATCHES,
  batch: z.looseObject({
    summary: row,
    lines: z.array(
      z.looseObject({ line: z.string(), actual: z.int(), target: z.int(), tolerance: z.int(), contributions: z.array(z.looseObject({})) }),
    ),
    story: z.array(z.looseObject({ code: z.string(), wall: z.number(), params: z.looseObject({}) })),
    limits: z.looseObject({ window: z.looseObject({ low: z.int(), high: z.int() }) }),
    record: z.looseObject({ entries: count, seq: count, link: z.string() }),
  }),
  instruments: z.looseObject({
    instruments: z.array(z.looseObject({ config, status: z.looseObject({ phase: z.string(), faults: z.looseObject({}) }) })),
    ports: z.array(z.looseObject({ stable: z.string(), device: z.string(), ambiguous: z.boolean() })),
    leavePractice: z.boolean(),
  }),
  raw: z.looseObject({ frames: z.array(z.looseObject({ hex: z.string(), text: z.string(), ageMs: z.number(), took: z.string() })) }),
};

const failed = (problem: HttpProblem, status: number | null): Answer<never> => ({ ok: false, problem, status });

/** That this screen was let in, and who acts on it. */
const ours = (): Record<string, string> => {
  const kept = token.read();
  const { pass } = preferences.getState();
  return { ...(kept === null ? {} : { authorization: `Bearer ${kept}` }), ...(pass === null ? {} : { [PASS_HEADER]: pass }) };
};

const request = async (path: string, body?: unknown): Promise<Response | null> => {
  const headers = ours();
  const post = { method: 'POST', headers: { ...headers, 'content-type': 'application/json' }, body: JSON.stringify(body) };
  try {
    return await fetch(path, { ...(body === undefined ? { headers } : post), signal: AbortSignal.timeout(PATIENCE_MS) });
  } catch {
    return null;
  }
};

/** The body as JSON; `null` when it is none, or ends too soon. */
const jsonOf = async (response: Response): Promise<unknown> => {
  try {
    return await response.json();
  } catch {
    return null;
  }
};

const problemOf = (body: unknown, status: number): Answer<never> => {
  const read = problemBody.safeParse(body);
  return failed(read.success ? read.data : apiMessages.unexpected(status), status);
};

/** Asks for one outline. `alsoWith`: another status that carries the same body. `refused` is handed the body of a refusal. */
export const ask = async <T>(
  outline: z.ZodMiniType,
  path: string,
  body?: unknown,
  alsoWith?: number,
  refused: (body: unknown) => void = () => undefined,
): Promise<Answer<T>> => answered(outline, await request(path, body), alsoWith, refused);

/** Sends a file's bytes as they are. */
export const sendFile = async <T>(outline: z.ZodMiniType, path: string, file: File): Promise<Answer<T>> => {
  const headers = { ...ours(), 'content-type': file.type };
  try {
    return await answered(outline, await fetch(path, { method: 'POST', headers, body: file }));
  } catch {
    return failed(apiMessages.gone, null);
  }
};

const answered = async <T>(
  outline: z.ZodMiniType,
  response: Response | null,
  alsoWith?: number,
  refused: (body: unknown) => void = () => undefined,
): Promise<Answer<T>> => {
  if (response === null) return failed(apiMessages.gone, null);
  const read = await jsonOf(response);
  if (!response.ok && response.status !== alsoWith) {
    refused(read);
    return problemOf(read, response.status);
  }
  return outline.safeParse(read).success ? { ok: true, value: read as T } : failed(apiMessages.unreadable, response.status);
};

const text = async (path: string): Promise<Answer<string>> => {
  const response = await request(path);
  if (response === null) return failed(apiMessages.gone, null);
  return response.ok ? { ok: true, value: await response.text() } : problemOf(await jsonOf(response), response.status);
};

/** Everything a page on paper asks of the server over HTTP. Nothing throws. */
export const api = {
  /** 503 says the same as 200: that nothing can be kept is an answer. */
  health: (): Promise<Answer<Health>> => ask(OUTLINES.health, '/api/health', undefined, 503),
  batches: (before: string | null, limit: number, status: BatchListRow['status'] | null = null): Promise<Answer<BatchList>> =>
    ask(OUTLINES.batches, batchesPath(before, limit, status)),
  batch: (id: string): Promise<Answer<BatchPage>> => ask(OUTLINES.batch, `/api/batches/${encodeURIComponent(id)}`),
  instruments: (): Promise<Answer<InstrumentsPage>> => ask(OUTLINES.instruments, '/api/instruments'),
  raw: (id: string): Promise<Answer<RawFrames>> => ask(OUTLINES.raw, `/api/instruments/${encodeURIComponent(id)}/raw`),
  bind: (config: InstrumentConfig): Promise<Answer<InstrumentsPage>> => ask(OUTLINES.instruments, '/api/instruments', config),
  unbind: (id: string): Promise<Answer<InstrumentsPage>> => ask(OUTLINES.instruments, '/api/instruments/unbind', { id }),
  leavePractice: (along: Carried): Promise<Answer<InstrumentsPage>> =>
    ask(OUTLINES.instruments, '/api/instruments/leave-practice', { leave: 'practice', ...along }),
  /** The tablet's code as SVG text. */
  qr: (): Promise<Answer<string>> => text('/api/qr'),
} as const;
