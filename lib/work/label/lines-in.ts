/** Widths in ems, rounded up, of the face the labels are set in; what is not here is as wide as a capital. */
const NARROW = 0.3;
const LOWER = 0.56;
const CAPITAL = 0.7;
const WIDE = 0.9;

const measured = (letter: string): number => {
  if (/[ .,:;'’iíìjl|!()[\]/-]/.test(letter)) return NARROW;
  if (/[mwMW@%—]/.test(letter)) return WIDE;
  return /[\da-zß-ÿ]/.test(letter) ? LOWER : CAPITAL;
};

/** A label is laid out again with every look at it; its letters are few. */
const known = new Map<string, number>();
const MOST_KNOWN = 2000;
const widthOf = (letter: string): number => {
  const before = known.get(letter);
  if (before !== undefined) return before;
  const width = measured(letter);
  if (known.size < MOST_KNOWN) known.set(letter, width);
  return width;
};

/** Never less than what it is: a line that ends before its edge is no harm, one that runs over it is. */
export const widthIn = (text: string, em: number): number => Array.from(text, widthOf).reduce((sum, width) => sum + width * em, 0);

/** A text in lines of at most so many mm, from the first line on; a word longer than its line is cut. */
export const linesAlong = (text: string, em: number, widthOfLine: (line: number) => number): readonly string[] => {
  const lines: string[] = [];
  let [line, used] = ['', 0];
  const end = (): void => {
    lines.push(line);
    [line, used] = ['', 0];
  };
  const space = widthOf(' ') * em;
  for (const word of text.split(/\s+/).filter((one) => one !== '')) {
    const wide = widthIn(word, em);
    if (line !== '' && used + space + wide > widthOfLine(lines.length)) end();
    if (line !== '') [line, used] = [`${line} ${word}`, used + space + wide];
    else if (wide <= widthOfLine(lines.length)) [line, used] = [word, wide];
    else
      for (const letter of word) {
        const own = widthOf(letter) * em;
        if (line !== '' && used + own > widthOfLine(lines.length)) end();
        [line, used] = [line + letter, used + own];
      }
  }
  if (line !== '') end();
  return lines;
};

export const linesIn = (text: string, em: number, width: number): readonly string[] => linesAlong(text, em, () => width);
