import type { Script } from './faces';

/**
 * What the face has no glyph for, as it is written with what it has. Micro as "u" is what ISO 2955:1983 gave for machines with few letters
 * (from memory).
 */
const WRITTEN: Readonly<Record<string, string>> = {
  '→': 'to',
  '←': 'from',
  '≤': 'at most',
  '≥': 'at least',
  '≈': 'about',
  '≠': 'not',
  '√': 'root of',
  Σ: 'sum of',
  σ: 'sigma',
  Δ: 'delta',
  µ: 'u',
  μ: 'u',
  '\u202f': '\u00a0',
  '\u2009': ' ',
  '\u2011': '-',
  '\u2028': ' ',
  '\u2029': ' ',
  '\t': ' ',
  '\n': ' ',
  '\r': ' ',
};

export interface Spelt {
  readonly text: string;
  readonly script: Script;
}

/** Whether a script's file draws a character. */
export type Draws = (script: Script, codePoint: number) => boolean;

/**
 * Text in runs of one file each. A letter neither file has is written by its number, "[U+4E2D]": a box would say nothing, and leaving it out
 * would change what stands in a record.
 */
export const spell = (text: string, draws: Draws): readonly Spelt[] => {
  const runs: { text: string; script: Script }[] = [];
  const put = (piece: string, script: Script): void => {
    const last = runs.at(-1);
    if (last?.script === script) last.text += piece;
    else runs.push({ text: piece, script });
  };
  for (const letter of text.normalize('NFC')) {
    const point = letter.codePointAt(0) ?? 0;
    const script = (['latin', 'latin-ext'] as const).find((one) => draws(one, point));
    if (script !== undefined) put(letter, script);
    else put(WRITTEN[letter] ?? `[U+${point.toString(16).toUpperCase().padStart(4, '0')}]`, 'latin');
  }
  return runs;
};
