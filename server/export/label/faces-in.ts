import PDFDocument from 'pdfkit';
import { faceOf } from '../pdf/faces';
import type { Script } from '../pdf/faces';

type Doc = InstanceType<typeof PDFDocument>;
type Glyphs = { readonly hasGlyphForCodePoint: (point: number) => boolean };

/** The faces of one document: which of their files draws a letter, and its name there. */
export const facesIn = (doc: Doc) => {
  const known = new Map<string, Glyphs>();
  const nameOf = (script: Script, strong: boolean): string => {
    const { name, bytes } = faceOf(script, strong ? 'strong' : 'plain');
    if (!known.has(name)) {
      doc.registerFont(name, Buffer.from(bytes));
      known.set(name, (doc.font(name) as unknown as { readonly _font: { readonly font: Glyphs } })._font.font);
    }
    return name;
  };
  const draws = (script: Script, strong: boolean, point: number): boolean =>
    known.get(nameOf(script, strong))?.hasGlyphForCodePoint(point) ?? false;
  return { nameOf, draws };
};

/** Letters are few; a document of its own is asked once for each. */
let asked: ReturnType<typeof facesIn> | null = null;
const known = new Map<number, boolean>();
const MOST_KNOWN = 5000;

const isDrawn = (point: number): boolean => {
  const before = known.get(point);
  if (before !== undefined) return before;
  asked ??= facesIn(new PDFDocument({ autoFirstPage: false }));
  const { draws } = asked;
  const drawn = (['latin', 'latin-ext'] as const).some((script) => draws(script, false, point) && draws(script, true, point));
  if (known.size < MOST_KNOWN) known.set(point, drawn);
  return drawn;
};

/** Letters of a text that the labels' face cannot draw, each once. */
export const undrawn = (text: string): readonly string[] =>
  [...new Set(text.normalize('NFC'))].filter((letter) => letter.trim() !== '' && !isDrawn(letter.codePointAt(0) ?? 0));
