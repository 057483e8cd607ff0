import type { Guarded } from './list';

/** The table of DEVELOPERS.md: one row per failure, as prettier lays it out once it is in the file. */
export const rowsOf = (all: readonly Guarded[]): readonly (readonly string[])[] =>
  all.map(({ code, breaks, test, guard }) => [code, breaks, `\`${test.file}\`: ${shown(test.title)}`, `\`${guard.file}\``]);

/** Placeholders mean nothing to a reader. */
const shown = (title: string): string =>
  title
    .replace(/^[ABC]\d+: /, '')
    .replace(/\$\{[^}]*\} /, '')
    .replace(/ that was %s$/, '');

/** The rows between two marks of a Markdown text, their cells trimmed. */
export const tableUnder = (text: string, heading: string): readonly (readonly string[])[] => {
  const from = text.indexOf(heading);
  if (from < 0) return [];
  const after = text.slice(from + heading.length);
  const lines = after.slice(0, after.search(/\n## /)).split('\n');
  return lines
    .filter((line) => line.startsWith('| '))
    .slice(1)
    .filter((line) => !line.startsWith('| --'))
    .map((line) =>
      line
        .split('|')
        .slice(1, -1)
        .map((cell) => cell.trim()),
    );
};
