import * as z from 'zod/mini';
import type { Formula } from './formula';
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

const MOST = 5000;
/** Ten million characters: a workshop's formulas are a hundredth of it. */
export const LONGEST_FILE = 10_000_000;

const many = <T extends z.ZodMiniType>(schema: T) => z.array(schema).check(z.maxLength(MOST));

const fileSchema = z.strictObject({
  format: z.literal('potwatch-formulas'),
  version: z.literal(1),
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

/** An import file, whole or not at all. Each problem has its line and column in `params`; `path` says which field. */
export const readFile = (text: string): FileRead => {
  if (text.length > LONGEST_FILE) return refused(problem('too-large', '', { value: text.length, most: LONGEST_FILE }));
  const plain = text.replace(/^\uFEFF/, '');
  const broken = brokenAt(plain);
  if (broken !== null) return refused(problem('not-json', '', { ...broken }));
  const parsed: unknown = JSON.parse(plain);
  const named = z.object({ format: z.unknown(), version: z.unknown() }).safeParse(parsed);
  if (!named.success || named.data.format !== 'potwatch-formulas' || named.data.version !== 1) {
    return refused(problem('other-format', 'format', { ...placeOf(plain, ['format']) }));
  }
  const read = fileSchema.safeParse(parsed);
  if (read.success) return { kind: 'file', file: read.data };
  return refused(
    ...read.error.issues
      .slice(0, MOST_SAID)
      .map(({ path, message, code }) => problem('wrong-shape', pathText(path), { ...placeOf(plain, path), words: `${code}: ${message}` })),
  );
};

const pathText = (path: readonly PropertyKey[]): string =>
  path.reduce<string>(
    (text, step) => (typeof step === 'number' ? `${text}[${step}]` : text === '' ? String(step) : `${text}.${String(step)}`),
    '',
  );

/** The file as text, the same for the same content. */
export const writeFile = (content: Omit<FormulaFile, 'format' | 'version'>): string => {
  const { formulas, materials, preparations, lots, moulds } = content;
  return `${JSON.stringify({ format: 'potwatch-formulas', version: 1, formulas, materials, preparations, lots, moulds }, null, 2)}\n`;
};

/** JSON Schema of the file, for whoever writes one by other means. */
export const fileJsonSchema = (): unknown => z.toJSONSchema(fileSchema, { unrepresentable: 'any', io: 'input' });
