import * as z from 'zod/mini';
import { AMENDABLE } from '#lib/work/batch/later/types';
import type { Realm } from '#lib/work/batch/index';
import type { HttpProblem } from './http';

/**
 * A batch as a file for other programs. Published as a JSON Schema (draft 2020-12) beside it and at `/api/export/batch-record.schema.json`.
 * Keys may be added later; none changes its meaning under the same `version`.
 */

const words = (description: string) => z.string().register(z.globalRegistry, { description });
const figure = (description: string) => z.int().register(z.globalRegistry, { description });

const mg = figure('milligrams');
const milliCelsius = figure('thousandths of a degree Celsius');
const ms = z
  .int()
  .register(z.globalRegistry, { description: 'milliseconds since 1970-01-01T00:00:00Z, by the clock of the bench machine' });
const offset = figure('minutes east of UTC, as the bench machine had it');
const count = z.int().check(z.gte(0));
const text = z.string();

const contribution = z.object({
  entry: words('id of the entry this weight stands in'),
  kind: text,
  net: mg,
  how: text,
  stated: z.nullable(z.object({ text, unit: text })),
  instrument: z.nullable(text),
  checked: z.boolean(),
  lot: z.nullable(text),
  rightLot: z.optional(z.nullable(words('mark of the right lot, said later; lot stays as it was stated'))),
  amended: z.optional(z.nullable(figure('milligrams it truly was, said later; net stays as it was stated'))),
  by: text,
  wall: ms,
  offsetMin: offset,
  provisional: z.boolean(),
  struck: z.nullable(z.object({ reason: text, note: text, by: text, wall: ms })),
});

const line = z.object({
  line: text,
  material: text,
  class: text,
  phase: text,
  lot: z.nullable(text),
  planned: z.object({ target: mg, tolerance: mg }),
  target: mg,
  tolerance: mg,
  moved: z.boolean(),
  actual: mg,
  difference: mg,
  away: figure('difference in thousandths of a tolerance'),
  status: z.enum(['waiting', 'open', 'closed']),
  outcome: z.nullable(z.enum(['within', 'over', 'short'])),
  byHand: z.boolean(),
  contributions: z.array(contribution),
});

const summary = z.object({
  id: text,
  mark: text,
  realm: z.enum(['real', 'practice', 'test']),
  name: text,
  status: z.enum(['weighing', 'joined', 'parked', 'abandoned', 'closed']),
  startedWall: ms,
  endedWall: z.nullable(ms),
  lines: z.object({ closed: count, of: count }),
  actual: mg,
  planned: mg,
  overPours: count,
  overrides: count,
  byHand: count,
  stated: z.optional(count),
});

const event = z.object({
  version: count,
  wall: ms,
  offsetMin: offset,
  by: text,
  via: z.enum(['screen', 'bench', 'server']),
  code: text,
  params: z.record(z.string(), z.union([z.string(), z.number()])),
});

const joining = z.object({
  lye: z.nullable(milliCelsius),
  oils: z.nullable(milliCelsius),
  apart: z.nullable(z.int()),
  wall: ms,
  offsetMin: offset,
  byHand: z.array(z.enum(['lye', 'oils'])),
});

const amendment = z.object({
  what: z.enum(AMENDABLE),
  entry: z.nullable(text),
  line: z.nullable(text),
  of: text,
  was: words('milligrams of a weight, mark of a lot, thousandths of a degree, or words'),
  is: text,
  why: text,
  by: text,
  wall: ms,
  offsetMin: offset,
});

const picture = z.object({ sha256: words('of the JPEG, hex'), of: text, caption: text, by: text, wall: ms, offsetMin: offset });

const mould = z.object({ mark: text, n: count, name: text, mass: z.nullable(mg), byHand: z.boolean() });

const review = z.object({
  summary,
  bench: text,
  version: count,
  startedBy: text,
  formula: z.object({ id: text, name: text, version: count }),
  lines: z.array(line),
  story: z.array(event),
  joining: z.nullable(joining),
  trace: z.array(z.object({ mark: text, batter: z.nullable(milliCelsius), wall: ms, note: text })),
  checks: z.array(z.object({ instrument: text, nominal: mg, shown: mg, difference: mg, wall: ms })),
  parts: z.array(z.object({ name: text, mass: mg, byHand: z.boolean() })),
  poured: z.object({ kind: text }),
  lots: z.optional(z.array(z.object({ lot: text, mark: text, mass: mg }))),
  moulds: z.optional(z.array(mould)),
  left: z.optional(z.array(z.object({ of: text, mass: mg, byHand: z.boolean() }))),
  amendments: z.optional(z.array(amendment)),
  pictures: z.optional(z.array(picture)),
  cleaned: z.optional(z.array(text)),
  uncheckedScales: z.optional(z.array(text)),
});

const sealed = z.object({
  seq: figure('number of the line in the journal'),
  leaf: words('SHA-256, hex, of the entry as RFC 8785 text'),
  link: words('SHA-256, hex, of the link before it followed by the leaf'),
  entry: z.record(z.string(), z.unknown()),
});

export const BATCH_RECORD = 'potwatch batch record';
export const BATCH_RECORD_SCHEMA = 'batch-record.schema.json';

export const batchRecordFile = z.object({
  $schema: z.literal(BATCH_RECORD_SCHEMA),
  format: z.literal(BATCH_RECORD),
  version: z.literal(1),
  people: z.record(z.string(), z.nullable(z.string())).register(z.globalRegistry, { description: 'names by id; null once erased' }),
  review,
  lines: z.array(sealed),
});

/** GET /api/export/backups: copies of the records in their folder, newest first. */
export interface BackupsPage {
  readonly folder: string;
  /** Why the newest try failed; `null` when it did not. */
  readonly problem: HttpProblem | null;
  readonly backups: readonly { readonly name: string; readonly realm: Realm; readonly wall: number; readonly bytes: number }[];
}

/** POST /api/export/archive: where the archive is fetched, once and soon. */
export interface ArchiveTicket {
  readonly path: string;
}
