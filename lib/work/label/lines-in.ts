/**
 * Hundredths of an em, rounded up, from the space (U+0020) to the tilde: the wider of plain and strong in the face the labels are set in
 * (Atkinson Hyperlegible Next, read from its files; a test holds them against those).
 */
const WIDTHS = [
  32, 31, 39, 77, 61, 97, 74, 21, 34, 34, 49, 61, 28, 38, 28, 44, 66, 44, 58, 60, 63, 61, 63, 54, 63, 60, 28, 28, 57, 63, 57, 55, 79, 68,
  65, 66, 69, 60, 57, 72, 71, 43, 57, 67, 56, 86, 72, 75, 63, 76, 65, 61, 61, 69, 65, 89, 69, 65, 62, 34, 44, 35, 59, 40, 29, 56, 60, 51,
  60, 57, 37, 60, 58, 30, 26, 56, 32, 89, 58, 58, 60, 60, 38, 51, 38, 57, 53, 74, 54, 53, 51, 39, 26, 39, 56,
] as const;
const FIRST = 0x20;
/** Letters of two, fractions and all that is not here: no letter of the face is wider. */
const WIDEST = 1.03;

/** What an accent may add to a narrow letter, and a hook or a stroke to any past Latin-1, hundredths. */
const MARK = 20;
const [NARROW, ASCII, LATIN_1] = [45, 0x7e, 0xff];

/** A no-break space is a space. */
const measured = (letter: string): number => {
  const own = letter.replace('\u00a0', ' ');
  const [point, base] = [own.charCodeAt(0), own.normalize('NFD').charCodeAt(0)];
  const width = WIDTHS[base - FIRST];
  if (width === undefined) return WIDEST;
  const marked = point > LATIN_1 || (point > ASCII && width < NARROW);
  return (width + (marked ? MARK : 0)) / 100;
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

/** A text in lines of at most so many mm, from the first line on; a word longer than its line is cut, a no-break space belongs to its word. */
export const linesAlong = (text: string, em: number, widthOfLine: (line: number) => number): readonly string[] => {
  const lines: string[] = [];
  let [line, used] = ['', 0];
  const end = (): void => {
    lines.push(line);
    [line, used] = ['', 0];
  };
  const space = widthOf(' ') * em;
  for (const word of text.split(/[ \t\n\r]+/).filter((one) => one !== '')) {
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
