import * as z from 'zod/mini';
import type { Json } from '#lib/record/journal';
import type { PlanContext } from '#lib/work/formula/index';
import type { Habits } from '#lib/work/shelf/documents';
import type { FieldProblem } from '#lib/work/shelf/check';
import type { HttpProblem } from './http';
import type { Noun } from '#lib/work/shelf/shelf';

/** POST /api/shelf/:noun/:id. `expected`: the newest version the page had before it, 0 for something new. */
export const putAsk = z.object({
  expected: z.int().check(z.gte(0)),
  document: z.json(),
  note: z.string().check(z.maxLength(500)),
});
export type PutAsk = z.infer<typeof putAsk>;

/** What stands now of one kind, in the order it was first put. GET /api/shelf/:noun */
export interface ShelfList {
  readonly noun: Noun;
  readonly items: readonly ShelfItem[];
  /** What was put away, newest first, as it last stood; `version` is that of its putting away, above which it can be put again. */
  readonly away: readonly ShelfItem[];
}
export interface ShelfItem {
  readonly id: string;
  readonly version: number;
  readonly wall: number;
  readonly document: Json;
}

/** One document with every version it had. `document` is `null` where it was put away. GET /api/shelf/:noun/:id */
export interface ShelfDocument {
  readonly id: string;
  readonly versions: readonly { readonly version: number; readonly wall: number; readonly note: string; readonly document: Json }[];
}

/** A document that was not kept. 422 */
export interface NotKept extends HttpProblem {
  readonly fields: readonly FieldProblem[];
}

/** POST /api/files?name=…: a certificate or data sheet, kept by its hash. */
export interface FileKept {
  readonly sha256: string;
  readonly name: string;
  readonly type: string;
  readonly bytes: number;
}
/** What is taken as a file; nothing else is ever handed out to be shown. */
export const FILE_TYPES = ['application/pdf', 'image/png', 'image/jpeg', 'text/plain'] as const;
export const LARGEST_FILE = 8 * 1024 * 1024;

/** GET /api/workshop: everything a plan is computed from; of the materials the maker's own only, since the catalogue is the program's. */
export interface WorkshopPage {
  readonly context: PlanContext;
  readonly habits: Habits;
  /** Newest version of every formula that stands, by its id: a sheet sees that another screen kept one. */
  readonly formulas: Readonly<Record<string, number>>;
}
