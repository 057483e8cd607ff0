import PDFDocument from 'pdfkit';
import { codeRuns, placesOn, SIGNS, type Modules, type Sheet } from '#lib/work/label/draw';
import type { LabelLayout } from '#lib/work/label/layout';
import type { Placed } from '#lib/work/label/placed';
import { labelWords } from '#lib/words/label/label-text';
import { HAIR, INK } from '../pdf/look';
import { spell } from '../pdf/spell';
import { facesIn } from './faces-in';

const POINTS_PER_MM = 72 / 25.4;
const at = (mm: number): number => mm * POINTS_PER_MM;

type Doc = InstanceType<typeof PDFDocument>;
type Struct = ReturnType<Doc['struct']>;
type TextPlaced = Extract<Placed, { kind: 'text' }>;

/** `goes on`: another line of its paragraph follows, so a space stands between them for whoever hears it. */
const drawText = (doc: Doc, faces: ReturnType<typeof facesIn>, one: TextPlaced, [dx, dy]: At, goesOn: boolean): void => {
  let x = at(dx + one.x);
  for (const { text, script } of spell(goesOn ? `${one.text} ` : one.text, (script, point) => faces.draws(script, one.strong, point))) {
    doc.font(faces.nameOf(script, one.strong)).fontSize(at(one.size)).fillColor(INK);
    doc.text(text, x, at(dy + one.y), { lineBreak: false, baseline: 'alphabetic' });
    x += doc.widthOfString(text);
  }
};

/** Where a label begins on its page, mm. */
type At = readonly [dx: number, dy: number];

/** What is read as one: lines of a paragraph, a sign with the letters in it. */
const piecesOf = (placed: readonly Placed[]): readonly (readonly Placed[])[] => {
  const pieces: Placed[][] = [];
  for (const one of placed) {
    const before = pieces.at(-1)?.at(-1);
    const together =
      one.kind === 'text' &&
      (one.part === 'sign' ? before?.kind === 'sign' : before?.kind === 'text' && before.part === one.part && before.of === one.of);
    if (together) pieces.at(-1)?.push(one);
    else pieces.push([one]);
  }
  return pieces;
};

interface Drawing {
  readonly doc: Doc;
  readonly faces: ReturnType<typeof facesIn>;
  readonly layout: LabelLayout;
  readonly modules: Modules;
  /** Its batch mark. */
  readonly mark: string;
}

const draw = ({ doc, faces, modules }: Drawing, one: Placed, place: At, goesOn: boolean): void => {
  const [dx, dy] = place;
  switch (one.kind) {
    case 'text':
      return drawText(doc, faces, one, place, goesOn);
    case 'sign':
      doc.save();
      doc.translate(at(dx + one.x), at(dy + one.y)).scale(at(one.side));
      doc.path(SIGNS[one.sign]).fill(INK, 'even-odd');
      doc.restore();
      return undefined;
    case 'code':
      break;
  }
  for (const { x, y, width, height } of codeRuns(one, modules)) doc.rect(at(dx + x), at(dy + y), at(width), at(height));
  doc.fill(INK);
};

/** What a sign or a code is called where it is not seen. */
const altOf = (one: Exclude<Placed, TextPlaced>, inside: string, mark: string): string => {
  if (one.kind === 'code') return labelWords.alt.code(mark);
  return one.sign === 'estimated' ? labelWords.alt.estimated : labelWords.alt.opened(inside);
};

/** Where a sheet is cut: a hairline that says nothing to whoever hears it. */
const drawEdge = (doc: Doc, { width, height }: LabelLayout, [x, y]: At): void => {
  doc.markContent('Artifact', { type: 'Layout' });
  doc.rect(at(x), at(y), at(width), at(height)).lineWidth(0.3).strokeColor(HAIR).stroke();
  doc.endMarkedContent();
};

/** One label as a section of the document, read in the order of its layout. */
const addLabel = (drawing: Drawing, section: Struct, place: At): void => {
  const { doc, layout, mark } = drawing;
  for (const piece of piecesOf(layout.placed)) {
    const [first] = piece;
    if (first === undefined) continue;
    const drawPiece = (): void => piece.forEach((one, n) => draw(drawing, one, place, n < piece.length - 1));
    if (first.kind === 'text') {
      section.add(doc.struct(first.part === 'title' ? 'H1' : 'P', {}, [drawPiece]));
      continue;
    }
    const inside = piece.map((one) => (one.kind === 'text' ? one.text : '')).join('');
    const [left, top] = [at(place[0] + first.x), at(place[1] + first.y)];
    const bbox: [number, number, number, number] = [left, top, left + at(first.side), top + at(first.side)];
    // The kit's types know no place of a figure yet.
    const figure = { alt: altOf(first, inside, mark), placement: 'Block', bbox };
    section.add(doc.struct('Figure', figure, [drawPiece]));
  }
};

/**
 * A label as tagged PDF: one on a page of its own size, or a sheet full of them, each a section with its title, its paragraphs and what its
 * signs and its code say to whoever does not see them.
 * @param now goes into the document as the time it was made. @returns the file's bytes
 */
export const labelPdf = (
  layout: LabelLayout,
  modules: Modules,
  about: { readonly title: string; readonly mark: string; readonly sheet: Sheet | null; readonly now: Date },
): Promise<Uint8Array> => {
  const { title, mark, sheet, now } = about;
  const page = sheet ?? layout;
  const doc = new PDFDocument({
    size: [page.width * POINTS_PER_MM, page.height * POINTS_PER_MM],
    margin: 0,
    pdfVersion: '1.7',
    tagged: true,
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
  const root = doc.struct('Document');
  doc.addStructure(root);
  for (const { x, y } of sheet === null ? [{ x: 0, y: 0 }] : placesOn(sheet, layout)) {
    const section = doc.struct('Sect');
    root.add(section);
    addLabel({ doc, faces, layout, modules, mark }, section, [x, y]);
    if (sheet !== null) drawEdge(doc, layout, [x, y]);
  }
  root.end();
  doc.end();
  return done;
};
