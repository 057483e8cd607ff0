import { readNumber } from '#lib/units/parse';
import { keptMessages } from '../../_ui/kept/messages';

export interface NamedPercent {
  readonly name: string;
  readonly percent: string;
}

/** "Linalool 1.5", one to a line. A line that is none is noted and left out of what is read; it stays in the field. */
export const percentLines = (text: string, note: (why: string) => void): readonly NamedPercent[] =>
  text.split('\n').flatMap((line) => {
    const trimmed = line.trim();
    if (trimmed === '') return [];
    const [, name = '', figure = ''] = /^(.+?)[\s:]+([^\s:]+?)\s*%?$/.exec(trimmed) ?? [];
    const percent = percentOf(figure);
    if (name === '' || percent === null) {
      note(keptMessages.errors.parts(trimmed));
      return [];
    }
    return [{ name, percent }];
  });

/** A percentage as a plain decimal text; of two readings the one that can be a percentage. */
const percentOf = (text: string): string | null => {
  const read = readNumber(text);
  const plain = read.kind === 'number' ? read.decimal : read.kind === 'ambiguous' ? read.readings[0] : '';
  return plain !== '' && Number(plain) >= 0 && Number(plain) <= 100 ? plain : null;
};

export const linesText = (all: readonly NamedPercent[]): string => all.map(({ name, percent }) => `${name} ${percent}`).join('\n');
