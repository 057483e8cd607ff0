import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import decodeQR from 'qr/decode.js';
import sharp from 'sharp';
import type { Sharp } from 'sharp';
import { toolWell } from '#tests/support/tools';

/** A picture as its pixels, three bytes each. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

/** Where a code lies in a picture. */
export interface Square {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const raw = async (picture: Sharp): Promise<Pixels> => {
  const { data, info } = await picture
    .flatten({ background: '#fff' })
    .removeAlpha()
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, data };
};

/** An SVG as another program (librsvg) draws it; `density` 72 is a pixel for each of its own. */
export const svgPixels = (svg: Uint8Array, density: number): Promise<Pixels> => raw(sharp(svg, { density }));

/** A part of a picture, its corners as shares of the whole. */
export const partOf = ({ width, height, data }: Pixels, [left, top, right, bottom]: readonly [number, number, number, number]): Pixels => {
  const [x, end, y, foot] = [left * width, right * width, top * height, bottom * height].map(Math.round) as [
    number,
    number,
    number,
    number,
  ];
  const rows = Array.from({ length: foot - y }, (_, row) => data.subarray(((y + row) * width + x) * 3, ((y + row) * width + end) * 3));
  return { width: end - x, height: foot - y, data: Buffer.concat(rows) };
};

/** One page of a PDF as another program (poppler) draws it. */
export const pdfPixels = async (pdf: Uint8Array, page: number, dpi = 200): Promise<Pixels> => {
  const folder = mkdtempSync(join(tmpdir(), 'pages-'));
  try {
    const file = join(folder, 'it.pdf');
    writeFileSync(file, pdf);
    toolWell('pdftoppm', ['-png', '-singlefile', '-r', String(dpi), '-f', String(page), '-l', String(page), file, join(folder, 'page')]);
    return await raw(sharp(readFileSync(join(folder, 'page.png'))));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

/** What a reader of codes that shares nothing with what draws them makes of a picture, and where it lies; `null`: it reads none. */
export const codeIn = ({ width, height, data }: Pixels): { readonly text: string; readonly at: Square } | null => {
  let at: Square | null = null;
  try {
    // However long it takes: what is read may not depend on the machine.
    const text = decodeQR(
      { width, height, data },
      { format: 'RGB', timeLimit: 60_000, pointsOnDetect: ({ boundingBox }) => (at = boundingBox) },
    );
    return at === null ? null : { text, at };
  } catch {
    return null;
  }
};

/** The picture with a share of a code's sides, in its middle, turned from dark to light and from light to dark. */
export const damaged = (picture: Pixels, { x, y, width, height }: Square, share: number): Pixels => {
  const data = Uint8Array.from(picture.data);
  const [left, top] = [Math.round(x + (width * (1 - share)) / 2), Math.round(y + (height * (1 - share)) / 2)];
  for (let row = top; row < top + Math.round(height * share); row += 1)
    for (let at = (row * picture.width + left) * 3; at < (row * picture.width + left + Math.round(width * share)) * 3; at += 1)
      data[at] = 255 - (data[at] ?? 0);
  return { ...picture, data };
};
