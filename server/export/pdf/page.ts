import type PDFDocument from 'pdfkit';
import { TOP } from './pen';
import type { Pen } from './pen';

type Doc = InstanceType<typeof PDFDocument>;
/** An element of the document's structure, by which a screen reader finds its way. */
export type Struct = ReturnType<Doc['struct']>;

/** Where the next thing goes, page after page, and the structure it is said to be. */
export class Page {
  readonly pen: Pen;
  y = TOP;
  readonly #root: Struct;

  constructor(pen: Pen) {
    this.pen = pen;
    pen.doc.addPage();
    this.#root = pen.doc.struct('Document');
    pen.doc.addStructure(this.#root);
  }

  /** Begins another page when `height` does not fit on this one; says whether it did. */
  room(height: number): boolean {
    if (this.y + height <= this.pen.bottom) return false;
    this.pen.doc.addPage();
    this.y = TOP;
    return true;
  }

  struct(type: string, parent: Struct = this.#root): Struct {
    const element = this.pen.doc.struct(type);
    parent.add(element);
    return element;
  }

  /** Draws what one element holds; what it draws must stay on this page. */
  put(type: string, parent: Struct, draw: () => void, attributes: Readonly<Record<string, string>> = {}): void {
    const element = this.struct(type, parent);
    // As the format has it: attributes of a cell belong to the owner "Table" (ISO 32000-1, 14.8.5.7).
    if (Object.keys(attributes).length > 0)
      Object.assign((element as unknown as { dictionary: { data: object } }).dictionary.data, { A: { O: 'Table', ...attributes } });
    element.add(draw);
    element.end();
  }

  end(): void {
    this.#root.end();
  }
}
