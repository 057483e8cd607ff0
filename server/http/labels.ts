import { Hono } from 'hono';
import type { Context } from 'hono';
import { create } from 'qrcode';
import * as z from 'zod/mini';
import { A4, labelSvg, LETTER, sheetSvg, type Modules, type Sheet } from '#lib/work/label/draw';
import { labelTitle, labelWords } from '#lib/words/label/label-text';
import { labelPdf } from '../export/label/pdf';
import { faceOf } from '../export/pdf/faces';
import { labelOf, type Label } from '../label/label-of';
import type { ApiDeps } from './deps';
import { problem } from './problem';

const asked = z.object({ sheet: z.optional(z.enum(['a4', 'letter'])) });
const SHEETS: Readonly<Record<'a4' | 'letter', Sheet>> = { a4: A4, letter: LETTER };

/** A label's code as the modules of a QR code (ISO/IEC 18004), which a phone reads as the mark and the words behind it. */
const modulesOf = (code: string): Modules => {
  const { size, data } = create(code, { errorCorrectionLevel: 'M' }).modules;
  return Array.from({ length: size }, (_, row) => Array.from({ length: size }, (__, column) => data[row * size + column] === 1));
};

/** The face of the labels within the picture itself, which loads nothing. */
const faceRules = (): string =>
  (['plain', 'strong'] as const)
    .map((weight) => {
      const bytes = Buffer.from(faceOf('latin', weight).bytes).toString('base64');
      return `@font-face{font-family:'Atkinson Hyperlegible Next';font-weight:${weight === 'plain' ? 400 : 700};src:url(data:font/woff;base64,${bytes})}`;
    })
    .join('');

/**
 * The label of one bar lot: GET /api/labels?id= (what it says, rests on and misses), /label.svg?id=&sheet= and /label.pdf?id=&sheet=, one or
 * a sheet full ("a4", "letter").
 */
export const labels = (deps: ApiDeps): Hono => {
  const found = (c: Context): Promise<Label | null> => labelOf(deps.running(), c.req.query('id') ?? '');
  const drawn = async (c: Context, draw: (label: Label, modules: Modules, sheet: Sheet | null) => Promise<Response> | Response) => {
    const how = asked.safeParse(c.req.query());
    if (!how.success) return problem(c, 400, 'There is no such sheet.', 'sheet is a4 or letter.');
    const label = await found(c);
    if (label === null) return noSuchBars(c);
    c.header('content-security-policy', "sandbox; default-src 'none'; style-src 'unsafe-inline'; font-src data:");
    return draw(label, modulesOf(label.code), how.data.sheet === undefined ? null : SHEETS[how.data.sheet]);
  };
  return new Hono()
    .get('/', async (c) => {
      const label = await found(c);
      return label === null ? noSuchBars(c) : c.json(label.page);
    })
    .get('/label.svg', (c) =>
      drawn(c, ({ page: { mark }, layout }, modules, sheet) => {
        c.header('content-type', 'image/svg+xml');
        const drawing = { title: mark, faces: faceRules() };
        return c.body(sheet === null ? labelSvg(layout, modules, drawing) : sheetSvg(layout, modules, drawing, sheet));
      }),
    )
    .get('/label.pdf', (c) =>
      drawn(c, async ({ page: { mark, formula, settings, undrawn }, layout }, modules, sheet) => {
        if (undrawn.length > 0)
          return problem(
            c,
            422,
            `The label has letters that no file of its face draws: ${undrawn.join(' ')}`,
            'Write them otherwise, or print the SVG, which takes them from a face of this machine.',
          );
        const title = labelWords.file(labelTitle(settings, formula), mark);
        const bytes = await labelPdf(layout, modules, { title, mark, sheet, now: new Date() });
        c.header('content-type', 'application/pdf');
        c.header('content-disposition', `inline; filename*=UTF-8''${encodeURIComponent(`${mark.replaceAll('/', '-')}-label.pdf`)}`);
        return c.body(bytes as Uint8Array<ArrayBuffer>);
      }),
    );
};

const noSuchBars = (c: Context): Response =>
  problem(c, 404, 'There are no such bars in this workshop.', 'Open them from the list of bars.');
