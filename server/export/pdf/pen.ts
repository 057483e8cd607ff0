import PDFDocument from 'pdfkit';
import type { Sentence } from '#lib/words/sentence';
import { faceOf } from './faces';
import type { Script, Weight } from './faces';
import { spell } from './spell';

/** ISO 216 and ANSI/ASME Y14.1, in points of 1/72 inch. */
const PAPERS = { A4: [595.28, 841.89], Letter: [612, 792] } as const;
export type Paper = keyof typeof PAPERS;

const SIDE = 42.5;
export const TOP = 36;
/** Room at the foot of every page for its number. */
const BOTTOM = 44;

type Doc = InstanceType<typeof PDFDocument>;

interface Run {
  readonly text: string;
  readonly font: string;
  readonly width: number;
}
type Line = readonly Run[];

/** What a sentence becomes in a width: lines of runs, each run of one font. */
export interface Set {
  readonly lines: readonly Line[];
  readonly size: number;
  readonly leading: number;
  readonly height: number;
  /** Of the widest line. */
  readonly width: number;
}

/** Sets and draws text with the faces that a record is printed in. Lengths in points, from the top left corner of the page. */
export class Pen {
  readonly doc: Doc;
  readonly width: number;
  readonly height: number;
  readonly #fonts = new Map<string, { readonly hasGlyphForCodePoint: (point: number) => boolean }>();

  constructor(paper: Paper, info: { readonly title: string; readonly subject: string; readonly made: Date }) {
    [this.width, this.height] = PAPERS[paper];
    this.doc = new PDFDocument({
      size: [this.width, this.height],
      margin: 0,
      autoFirstPage: false,
      bufferPages: true,
      pdfVersion: '1.7',
      tagged: true,
      displayTitle: true,
      lang: 'en-GB',
      info: { Title: info.title, Subject: info.subject, Creator: 'Potwatch', Producer: 'Potwatch', CreationDate: info.made },
    });
  }

  get left(): number {
    return SIDE;
  }
  get right(): number {
    return this.width - SIDE;
  }
  get bottom(): number {
    return this.height - BOTTOM;
  }

  /** Breaks a sentence into lines no wider than `width`; a word that is wider is broken by letters. */
  set(sentence: Sentence, width: number, size: number, weight: Weight = 'plain', leading = size * 1.3): Set {
    const lines: Run[][] = [[]];
    let used = 0;
    for (const word of this.#words(sentence, size, weight)) {
      const bare = word.reduce((sum, run) => sum + this.#width(run.text.trimEnd(), run.font, size), 0);
      const pieces = bare > width ? this.#letters(word, size).map((letter) => [letter]) : [word];
      for (const piece of pieces) {
        const needs = piece.reduce((sum, run) => sum + this.#width(run.text.trimEnd(), run.font, size), 0);
        if (used > 0 && used + needs > width + 0.01) {
          lines.push([]);
          used = 0;
        }
        lines.at(-1)?.push(...piece);
        used += piece.reduce((sum, run) => sum + run.width, 0);
      }
    }
    const whole = lines.map(joined);
    const widest = Math.max(...whole.map((line) => this.#wide(line, size)));
    return { lines: whole, size, leading, height: lines.length * leading, width: widest };
  }

  /** Draws what was set; `right` aligns the lines' ends with `x + width`. */
  draw(set: Set, x: number, y: number, width: number, right = false): void {
    for (const [at, line] of set.lines.entries()) {
      const wide = this.#wide(line, set.size);
      let from = right ? x + width - wide : x;
      for (const run of line) {
        this.doc
          .font(run.font)
          .fontSize(set.size)
          .text(run.text, from, y + at * set.leading, { lineBreak: false });
        from += run.width;
      }
    }
  }

  /** A rule or another mark that carries no text of its own. */
  mark(draw: (doc: Doc) => void): void {
    this.doc.markContent('Artifact', { type: 'Layout' });
    draw(this.doc);
    this.doc.endMarkedContent();
  }

  rule(x: number, to: number, y: number, thick: number, ink: string): void {
    this.mark((doc) => doc.moveTo(x, y).lineTo(to, y).lineWidth(thick).strokeColor(ink).stroke());
  }

  #words(sentence: Sentence, size: number, weight: Weight): readonly (readonly Run[])[] {
    const words: Run[][] = [[]];
    for (const piece of sentence) {
      const [text, as]: [string, Weight] =
        typeof piece === 'string' ? [piece, weight] : [piece.text, piece.voice === 'measured' ? 'strong' : weight];
      // A break may come after a space; one that does not break belongs to its word.
      for (const part of text.split(/(?<= )/)) {
        for (const { text: spelt, script } of spell(part, (one, point) => this.#draws(one, as, point))) {
          const font = this.#font(script, as);
          words.at(-1)?.push({ text: spelt, font, width: this.#width(spelt, font, size) });
        }
        if (part.endsWith(' ')) words.push([]);
      }
    }
    return words.filter((word) => word.length > 0);
  }

  #letters(word: readonly Run[], size: number): readonly Run[] {
    return word.flatMap(({ text, font }) => Array.from(text, (letter) => ({ text: letter, font, width: this.#width(letter, font, size) })));
  }

  /** What a line takes, without the space it may end with. */
  #wide(line: Line, size: number): number {
    return line.reduce((sum, run, at) => sum + (at === line.length - 1 ? this.#width(run.text.trimEnd(), run.font, size) : run.width), 0);
  }

  #width(text: string, font: string, size: number): number {
    return this.doc.font(font).fontSize(size).widthOfString(text);
  }

  #draws(script: Script, weight: Weight, point: number): boolean {
    this.#font(script, weight);
    return this.#fonts.get(`${script}-${weight}`)?.hasGlyphForCodePoint(point) ?? false;
  }

  #font(script: Script, weight: Weight): string {
    const key = `${script}-${weight}`;
    if (!this.#fonts.has(key)) {
      const { bytes } = faceOf(script, weight);
      this.doc.registerFont(key, Buffer.from(bytes));
      // The kit's own reading of the file, so that what is asked is what will be drawn.
      const { font } = (this.doc.font(key) as unknown as { _font: { font: { hasGlyphForCodePoint: (point: number) => boolean } } })._font;
      this.#fonts.set(key, font);
    }
    return key;
  }
}

/** Runs of one font as one, so that words are drawn and found whole. */
const joined = (line: readonly Run[]): Line => {
  const runs: Run[] = [];
  for (const run of line) {
    const last = runs.at(-1);
    if (last?.font === run.font) runs[runs.length - 1] = { ...last, text: last.text + run.text, width: last.width + run.width };
    else runs.push(run);
  }
  return runs;
};
