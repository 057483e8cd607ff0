import PDFDocument from 'pdfkit';
import { codeRuns, placesOn, SIGNS, type Modules, type Sheet } from '#lib/work/label/draw';
import type { LabelLayout, Placed } from '#lib/work/label/layout';
import { faceOf } from '../pdf/faces';
import type { Script } from '../pdf/faces';
import { INK } from '../pdf/look';
import { spell } from '../pdf/spell';

const POINTS_PER_MM = 72 / 25.4;
const at = (mm: number): number => mm * POINTS_PER_MM;

type Doc = InstanceType<typeof PDFDocument>;
type Glyphs = { readonly hasGlyphForCodePoint: (point: number) => boolean };

/** The faces of one document: which of their files draws a letter, and its name there. */
const facesIn = (doc: Doc) => {
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

const drawText = (doc: Doc, faces: ReturnType<typeof facesIn>, one: Extract<Placed, { kind: 'text' }>, dx: number, dy: number): void => {
  let x = at(dx + one.x);
  for (const { text, script } of spell(one.text, (script, point) => faces.draws(script, one.strong, point))) {
    doc.font(faces.nameOf(script, one.strong)).fontSize(at(one.size)).fillColor(INK);
    doc.text(text, x, at(dy + one.y), { lineBreak: false, baseline: 'alphabetic' });
    x += doc.widthOfString(text);
  }
};

const drawLabel = (doc: Doc, faces: ReturnType<typeof facesIn>, layout: LabelLayout, modules: Modules, dx: number, dy: number): void => {
  for (const one of layout.placed) {
    switch (one.kind) {
      case 'text':
        drawText(doc, faces, one, dx, dy);
        break;
      case 'sign':
        doc.save();
        doc.translate(at(dx + one.x), at(dy + one.y)).scale(at(one.side));
        doc.path(SIGNS[one.sign]).fill(INK, 'even-odd');
        doc.restore();
        break;
      case 'code':
        for (const { x, y, width, height } of codeRuns(one, modules)) doc.rect(at(dx + x), at(dy + y), at(width), at(height));
        doc.fill(INK);
        break;
    }
  }
};

/**
 * A label as PDF: one on a page of its own size, or a sheet full of them.
 * @param now goes into the document as the time it was made. @returns the file's bytes
 */
export const labelPdf = (
  layout: LabelLayout,
  modules: Modules,
  about: { readonly title: string; readonly sheet: Sheet | null; readonly now: Date },
): Promise<Uint8Array> => {
  const { title, sheet, now } = about;
  const page = sheet ?? layout;
  const doc = new PDFDocument({
    size: [page.width * POINTS_PER_MM, page.height * POINTS_PER_MM],
    margin: 0,
    lang: 'en-GB',
    displayTitle: true,
    info: { Title: title, Creator: 'Potwatch', Producer: 'Potwatch', CreationDate: now },
  });
  const faces = facesIn(doc);
  const chunks: Uint8Array[] = [];
  const done = new Promise<Uint8Array>((resolve, reject) => {
    doc.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    doc.on('end', () => resolve(Buffer.concat(chunks)));
    doc.on('error', reject);
  });
  for (const { x, y } of sheet === null ? [{ x: 0, y: 0 }] : placesOn(sheet, layout)) drawLabel(doc, faces, layout, modules, x, y);
  doc.end();
  return done;
};
