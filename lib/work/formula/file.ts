import * as z from 'zod/mini';
import { issueWords } from '../issue-words';
import type { Formula } from './formula';
import { figuresIn, type Content } from './file-figures';
import { idsIn } from './file-ids';
import { brokenAt, placeOf } from './json-place';
import type { Lot } from './lot';
import type { Material, Preparation } from './material';
import type { Mould } from './mould';
import { problem, type Problem } from './problem';
import { formulaSchema } from './schema/formula';
import { lotSchema } from './schema/lot';
import { materialSchema, preparationSchema } from './schema/material';
import { mouldSchema } from './schema/mould';

/** Formulas on their way from one workshop to another, with what they are made of. */
export interface FormulaFile {
  readonly format: 'potwatch-formulas';
  readonly version: 1;
  readonly formulas: readonly Formula[];
  readonly materials: readonly Material[];
  readonly preparations: readonly Preparation[];
  readonly lots: readonly Lot[];
  readonly moulds: readonly Mould[];
}

const VERSION = 1;
const MOST = 5000;
/** Ten million characters: a workshop's formulas are a hundredth of it. */
const LONGEST_FILE = 10_000_000;

const many = <T extends z.ZodMiniType>(schema: T) => z.array(schema).check(z.maxLength(MOST));

const fileSchema = z.strictObject({
  format: z.literal('potwatch-formulas'),
  version: z.literal(VERSION),
  formulas: many(formulaSchema),
  materials: many(materialSchema),
  preparations: many(preparationSchema),
  lots: many(lotSchema),
  moulds: many(mouldSchema),
});

export type FileRead =
  { readonly kind: 'file'; readonly file: FormulaFile } | { readonly kind: 'problems'; readonly problems: readonly Problem[] };

const refused = (...problems: readonly Problem[]): FileRead => ({ kind: 'problems', problems });

const MOST_SAID = 50;

/**
 * An import file, whole or not at all. Each problem has its line and column in `params`, and whose field it is (`of`); `path` says
 * which field.
 *
 * @param there what the workshop has that it goes to; without it what the file only names may be there
 */
export const readFile = (text: string, there: Content | null = null): FileRead => {
  if (text.length > LONGEST_FILE) return refused(problem('too-large', '', { value: text.length, most: LONGEST_FILE }));
  const plain = text.replace(/^\uFEFF/, '');
  const broken = brokenAt(plain);
  if (broken !== null) return refused(problem('not-json', '', { ...broken }));
  const parsed: unknown = JSON.parse(plain);
  const named = z.object({ format: z.unknown(), version: z.unknown() }).safeParse(parsed);
  if (!named.success || named.data.format !== 'potwatch-formulas') {
    return refused(problem('other-format', 'format', { ...placeOf(plain, ['format']) }));
  }
  if (named.data.version !== VERSION) {
    const { version } = named.data;
    const words = typeof version === 'number' ? { version } : {};
    return refused(problem('other-version', 'version', { ...placeOf(plain, ['version']), ...words }));
  }
  const read = fileSchema.safeParse(parsed);
  if (read.success) {
    const ids = idsIn(read.data);
    const wrong = (ids.length > 0 ? ids : figuresIn(read.data, there)).slice(0, MOST_SAID);
    if (wrong.length === 0) return { kind: 'file', file: read.data };
    return refused(
      ...wrong.map(({ list, at, problem: { code, path, params } }) => {
        const steps = [list, at, ...stepsOf(path)];
        return problem(code, pathText(steps), { ...params, ...placeOf(plain, steps), of: ownerOf(parsed, steps) });
      }),
    );
  }
  return refused(
    ...read.error.issues.slice(0, MOST_SAID).map((issue) =>
      problem('wrong-shape', pathText(issue.path), {
        ...placeOf(plain, issue.path),
        words: issueWords(issue),
        of: ownerOf(parsed, issue.path),
      }),
    ),
  );
};

/** "parts[0].percent" as steps into a document. */
const stepsOf = (path: string): readonly (string | number)[] =>
  path.split(/[.[\]]+/).flatMap((step) => (step === '' ? [] : [/^\d+$/.test(step) ? Number(step) : step]));

/** Whose field it is, by the name it bears in the file: "formula Mallow". */
const ownerOf = (parsed: unknown, [list, at]: readonly PropertyKey[]): string => {
  const all: unknown =
    typeof parsed === 'object' && parsed !== null && typeof list === 'string' ? (parsed as Record<string, unknown>)[list] : null;
  const one: unknown = Array.isArray(all) && typeof at === 'number' ? all[at] : null;
  if (typeof one !== 'object' || one === null || typeof list !== 'string') return '';
  const { name, mark } = one as { readonly name?: unknown; readonly mark?: unknown };
  const called = typeof name === 'string' ? name : typeof mark === 'string' ? mark : '';
  return `${list.replace(/s$/, '')} ${called}`.trim();
};

const pathText = (path: readonly PropertyKey[]): string =>
  path.reduce<string>(
    (text, step) => (typeof step === 'number' ? `${text}[${step}]` : text === '' ? String(step) : `${text}.${String(step)}`),
    '',
  );

/** The file as text, the same for the same content. */
export const writeFile = (content: Omit<FormulaFile, 'format' | 'version'>): string => {
  const { formulas, materials, preparations, lots, moulds } = content;
  return `${JSON.stringify({ format: 'potwatch-formulas', version: VERSION, formulas, materials, preparations, lots, moulds }, null, 2)}\n`;
};

/** JSON Schema of the file, for whoever writes one by other means. */
export const fileJsonSchema = (): unknown => z.toJSONSchema(fileSchema, { unrepresentable: 'any', io: 'input' });
