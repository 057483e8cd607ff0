import * as z from 'zod/mini';
import type { FileKept, ShelfDocument, ShelfList, WorkshopPage } from '#lib/protocol/shelf';
import type { Json } from '#lib/record/journal';
import type { Problem } from '#lib/work/formula/index';
import type { FieldProblem } from '#lib/work/shelf/check';
import type { Noun } from '#lib/work/shelf/shelf';
import { ask, sendFile } from './api';
import type { Answer } from './api';
import { problemText } from './problem-messages';

const version = z.int().check(z.gte(1));
const problem = z.looseObject({ code: z.string(), path: z.string(), params: z.record(z.string(), z.union([z.string(), z.number()])) });
const field = z.looseObject({ path: z.string(), says: z.string(), problem: z.optional(problem) });

/** In this screen's words where the server says which of the plan's problems it is. */
const worded = ({ path, says, problem: one }: z.infer<typeof field>): FieldProblem => ({
  path,
  says: one === undefined ? says : problemText(one as Problem),
});

/** The outline of each answer, as in `api`. */
const OUTLINES = {
  list: z.looseObject({
    noun: z.string(),
    items: z.array(z.looseObject({ id: z.string(), version, document: z.looseObject({}) })),
    away: z.array(z.looseObject({ id: z.string(), version, document: z.looseObject({}) })),
  }),
  document: z.looseObject({ id: z.string(), versions: z.array(z.looseObject({ version, wall: z.number(), note: z.string() })) }),
  put: z.looseObject({ version }),
  workshop: z.looseObject({
    context: z.looseObject({ moulds: z.array(z.looseObject({})) }),
    habits: z.looseObject({}),
    formulas: z.record(z.string(), version),
  }),
  file: z.looseObject({ sha256: z.string(), name: z.string(), type: z.string(), bytes: z.int() }),
  refused: z.looseObject({ fields: z.array(field) }),
};

/** What a put says: its version, or what is wrong, with the fields where that is known. */
export type PutAnswer = Answer<{ readonly version: number }> & { readonly fields: readonly FieldProblem[] };

const path = (noun: Noun, id: string): string => `/api/shelf/${noun}/${encodeURIComponent(id)}`;

/** Formulas, materials, lots, moulds, vessels, habits and what is prepared. Nothing throws. */
export const shelfApi = {
  list: (noun: Noun): Promise<Answer<ShelfList>> => ask(OUTLINES.list, `/api/shelf/${noun}`),
  document: (noun: Noun, id: string): Promise<Answer<ShelfDocument>> => ask(OUTLINES.document, path(noun, id)),
  workshop: (): Promise<Answer<WorkshopPage>> => ask(OUTLINES.workshop, '/api/workshop'),
  /** `expected`: the newest version this page had before it; 0 for something new. `null` puts it away. */
  async put(noun: Noun, id: string, expected: number, document: object | null, note = ''): Promise<PutAnswer> {
    let fields: readonly FieldProblem[] = [];
    const body = { expected, document: document as Json, note };
    const answer = await ask<{ version: number }>(OUTLINES.put, path(noun, id), body, undefined, (refused) => {
      const read = OUTLINES.refused.safeParse(refused);
      if (read.success) fields = read.data.fields.map(worded);
    });
    const [first] = fields;
    if (answer.ok || first === undefined) return { ...answer, fields };
    return { ...answer, problem: { ...answer.problem, error: first.says }, fields };
  },
  keepFile: (file: File): Promise<Answer<FileKept>> => sendFile(OUTLINES.file, `/api/files?name=${encodeURIComponent(file.name)}`, file),
  /** Where a kept file is saved from. */
  fileAddress: (sha256: string): string => `/api/files/${sha256}`,
} as const;
