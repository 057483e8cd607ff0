import type { LabelLayout } from './layout';
import type { Placed } from './placed';

/** A code as its modules, row by row: true is dark. */
export type Modules = readonly (readonly boolean[])[];

/** A sheet of labels, mm. */
export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly margin: number;
  readonly gap: number;
}

export const A4: Sheet = { width: 210, height: 297, margin: 8, gap: 2 };
export const LETTER: Sheet = { width: 215.9, height: 279.4, margin: 8, gap: 2 };

/** Where labels stand on a sheet, in rows from the top left; empty where not one has room. */
export const placesOn = (
  { width, height, margin, gap }: Sheet,
  label: { readonly width: number; readonly height: number },
): readonly { readonly x: number; readonly y: number }[] => {
  const along = (all: number, one: number): number => Math.max(0, Math.floor((all - 2 * margin + gap + 1e-9) / (one + gap)));
  const [columns, rows] = [along(width, label.width), along(height, label.height)];
  return Array.from({ length: columns * rows }, (_, at) => ({
    x: margin + (at % columns) * (label.width + gap),
    y: margin + Math.floor(at / columns) * (label.height + gap),
  }));
};

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
const round = (value: number): string => String(Math.round(value * 1000) / 1000);

/**
 * The estimated sign in a square of 1, as a path: drawn, since few faces hold it. Its form follows Directive 71/316/EEC, Annex I, by eye (from
 * memory): compare before you print.
 */
const ESTIMATED = 'M1 .5A.5 .47 0 1 0 .883 .802L.73 .757A.3 .4 0 1 1 .8 .5zM.17 .46H.9V.54H.17z';

/** The open jar of Regulation (EC) No 1223/2009, Annex VII, 2, in a square of 1: jar and lid as bands, by eye (from memory). */
const OPENED =
  'M.08 .4H.92V.84Q.92 1 .76 1H.24Q.08 1 .08 .84zM.14 .46V.83Q.14 .94 .25 .94H.75Q.86 .94 .86 .83V.46z' +
  'M.14 .3L.86 .06L.9 .18L.18 .42L.16 .36L.82 .14L.16 .36z';

export const SIGNS = { estimated: ESTIMATED, opened: OPENED } as const;

/** The quiet border that a code needs, in modules (ISO/IEC 18004: four). */
const QUIET = 4;

/** Dark runs of a code as rectangles, mm from the label's top left. */
export const codeRuns = (
  { x, y, side }: Extract<Placed, { kind: 'code' }>,
  modules: Modules,
): readonly { readonly x: number; readonly y: number; readonly width: number; readonly height: number }[] => {
  const module = side / (modules.length + 2 * QUIET);
  return modules.flatMap((row, r) => {
    const runs: { x: number; y: number; width: number; height: number }[] = [];
    for (let c = 0; c < row.length; c += 1) {
      if (row[c] !== true) continue;
      let end = c;
      while (row[end + 1] === true) end += 1;
      runs.push({ x: x + (c + QUIET) * module, y: y + (r + QUIET) * module, width: (end - c + 1) * module, height: module });
      c = end;
    }
    return runs;
  });
};

const textOf = ({ x, y, size, strong, text }: Extract<Placed, { kind: 'text' }>): string =>
  `<text x="${round(x)}" y="${round(y)}" font-size="${round(size)}"${strong ? ' font-weight="700"' : ''}>${escaped(text)}</text>`;

const inner = ({ width, height, placed }: LabelLayout, modules: Modules): string => {
  const texts = placed.map((one) => (one.kind === 'text' ? textOf(one) : ''));
  const runs = placed.flatMap((one) => (one.kind === 'code' ? codeRuns(one, modules) : []));
  const path = runs
    .map((run) => `M${round(run.x)} ${round(run.y)}h${round(run.width)}v${round(run.height)}h-${round(run.width)}z`)
    .join('');
  const signs = placed.map((one) =>
    one.kind === 'sign'
      ? `<path fill-rule="evenodd" d="${SIGNS[one.sign]}" transform="translate(${round(one.x)} ${round(one.y)}) scale(${round(one.side)})"/>`
      : '',
  );
  const border = `<rect x="0.1" y="0.1" width="${round(width - 0.2)}" height="${round(height - 0.2)}" fill="none" stroke="#bbb" stroke-width="0.2"/>`;
  return `${border}${texts.join('')}${signs.join('')}<path d="${path}" fill="#111"/>`;
};

/** What an SVG is called, and the faces it brings along as style rules: a picture of its own has nobody else's. */
export interface LabelDrawn {
  readonly title: string;
  readonly faces?: string;
}

const svg = (width: number, height: number, { title, faces = '' }: LabelDrawn, body: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="${round(width)}mm" height="${round(height)}mm" viewBox="0 0 ${round(width)} ${round(height)}" role="img" font-family="'Atkinson Hyperlegible Next', sans-serif" fill="#111"><title>${escaped(title)}</title>${faces === '' ? '' : `<style>${faces}</style>`}<rect width="100%" height="100%" fill="#fff"/>${body}</svg>`;

/** One label as SVG in millimetres. */
export const labelSvg = (layout: LabelLayout, modules: Modules, drawn: LabelDrawn): string =>
  svg(layout.width, layout.height, drawn, inner(layout, modules));

/** A sheet full of one label. */
export const sheetSvg = (layout: LabelLayout, modules: Modules, drawn: LabelDrawn, sheet: Sheet): string =>
  svg(
    sheet.width,
    sheet.height,
    drawn,
    placesOn(sheet, layout)
      .map(({ x, y }) => `<g transform="translate(${round(x)} ${round(y)})">${inner(layout, modules)}</g>`)
      .join(''),
  );
