import type * as z from 'zod/mini';

const WANTED: Readonly<Record<string, string>> = {
  string: 'A text belongs here.',
  number: 'A number belongs here.',
  int: 'A whole number belongs here.',
  boolean: 'Yes or no belongs here.',
  array: 'A list belongs here.',
  object: 'Several fields belong here.',
};

/** Formats that are asked for by a pattern, by a word of the pattern's own field. */
const PATTERNED: Readonly<Record<string, string>> = {
  date: 'A day such as 2026-02-03 belongs here.',
  sha256: 'The 64 hex digits of a kept file belong here.',
};

/** What is wrong with the shape of a document, in words a maker reads. */
export const issueWords = (issue: z.core.$ZodIssue): string => {
  switch (issue.code) {
    case 'invalid_type':
      return WANTED[issue.expected] ?? 'Something of another kind belongs here.';
    case 'unrecognized_keys':
      return `Not known here: ${issue.keys.join(', ')}.`;
    case 'invalid_value':
      return oneOfThese(issue.values);
    case 'too_big':
      return `More than the ${String(issue.maximum)} that can be kept.`;
    case 'too_small':
      return issue.origin === 'string' ? 'Nothing stands here.' : `Less than ${String(issue.minimum)}.`;
    case 'invalid_format':
      return PATTERNED[String(issue.path.at(-1))] ?? 'This is not written as it is asked for here.';
    case 'invalid_union':
      return 'options' in issue && Array.isArray(issue.options) ? oneOfThese(issue.options) : 'None of what may stand here.';
    case 'custom':
      return 'This is not known here.';
    case 'invalid_element':
    case 'invalid_key':
    case 'not_multiple_of':
      break;
  }
  return 'This cannot be read.';
};

const oneOfThese = (all: readonly unknown[]): string => `One of these belongs here: ${all.map(String).join(', ')}.`;
