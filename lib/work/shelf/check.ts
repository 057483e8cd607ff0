import type * as z from 'zod/mini';
import type { Json } from '#lib/record/journal';
import { SCHEMAS } from './documents';
import type { Noun } from './shelf';

/** What is wrong in a document, beside the field it stands in. */
export interface FieldProblem {
  /** Path from the document's root, for example `entries.2.amount.percent`; empty for the whole. */
  readonly path: string;
  readonly says: string;
}

/**
 * What is wrong with the shape of a document, at most one problem a field; nothing when it may be kept. An unfinished or wrong formula has
 * a sound shape: what is wrong with its figures is `planOf`'s to say, and the maker's to mend another day.
 */
export const checkDocument = (noun: Noun, id: string, document: Json): readonly FieldProblem[] => {
  const read = SCHEMAS[noun].safeParse(document);
  if (!read.success) return read.error.issues.map((issue) => ({ path: issue.path.map(String).join('.'), says: says(issue) }));
  return (document as { readonly id?: Json }).id === id ? [] : [{ path: 'id', says: 'The document bears another name than its address.' }];
};

const says = (issue: z.core.$ZodIssue): string => {
  if (issue.code === 'invalid_type') return WANTED[issue.expected] ?? 'Something of another kind belongs here.';
  if (issue.code === 'unrecognized_keys') return `Not known here: ${issue.keys.join(', ')}.`;
  if (issue.code === 'invalid_value') return `One of these belongs here: ${issue.values.map(String).join(', ')}.`;
  if (issue.code === 'too_big') return `More than the ${String(issue.maximum)} that can be kept.`;
  if (issue.code === 'too_small') return issue.origin === 'string' ? 'Nothing stands here.' : `Less than ${String(issue.minimum)}.`;
  return 'This cannot be read.';
};

const WANTED: Readonly<Record<string, string>> = {
  string: 'A text belongs here.',
  number: 'A number belongs here.',
  int: 'A whole number belongs here.',
  boolean: 'Yes or no belongs here.',
  array: 'A list belongs here.',
  object: 'Several fields belong here.',
};
