/** Widths in ems, rounded up, of the face the labels are set in; what is not here is as wide as a capital. */
const NARROW = 0.3;
const LOWER = 0.56;
const CAPITAL = 0.7;
const WIDE = 0.9;

const widthOf = (letter: string): number => {
  if (/[ .,:;'’iíìjl|!()[\]/-]/.test(letter)) return NARROW;
  if (/[mwMW@%—]/.test(letter)) return WIDE;
  return /[\da-zß-ÿ]/.test(letter) ? LOWER : CAPITAL;
};

/** Never less than what it is: a line that ends before its edge is no harm, one that runs over it is. */
export const widthIn = (text: string, em: number): number => Array.from(text, widthOf).reduce((sum, width) => sum + width * em, 0);

/** A text in lines of at most so many mm; a word longer than a line is cut. */
export const linesIn = (text: string, em: number, width: number): readonly string[] => {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter((one) => one !== '')) {
    const joined = line === '' ? word : `${line} ${word}`;
    if (widthIn(joined, em) <= width) {
      line = joined;
      continue;
    }
    if (line !== '') lines.push(line);
    const pieces = cutWord(word, em, width);
    lines.push(...pieces.slice(0, -1));
    line = pieces.at(-1) ?? '';
  }
  return line === '' ? lines : [...lines, line];
};

const cutWord = (word: string, em: number, width: number): readonly string[] => {
  const pieces: string[] = [''];
  for (const letter of word) {
    const last = pieces.at(-1) ?? '';
    if (last !== '' && widthIn(last + letter, em) > width) pieces.push(letter);
    else pieces[pieces.length - 1] = last + letter;
  }
  return pieces;
};
