import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { toolWell } from '#tests/support/tools';

const asked = (program: string, args: readonly string[], pdf: Uint8Array): string => {
  const folder = mkdtempSync(join(tmpdir(), 'pdf-'));
  try {
    const file = join(folder, 'record.pdf');
    writeFileSync(file, pdf);
    return toolWell(
      program,
      args.map((arg) => (arg === 'FILE' ? file : arg)),
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

/** What another program (poppler) reads out of a PDF: its text in the order of the page, its own properties, its fonts. */
export const pdfText = (pdf: Uint8Array): string => asked('pdftotext', ['-layout', 'FILE', '-'], pdf);
export const pdfInfo = (pdf: Uint8Array): string => asked('pdfinfo', ['FILE'], pdf);
export const pdfTags = (pdf: Uint8Array): string => asked('pdfinfo', ['-struct-text', 'FILE'], pdf);
export const pdfFonts = (pdf: Uint8Array): readonly { readonly name: string; readonly embedded: boolean; readonly unicode: boolean }[] =>
  asked('pdffonts', ['FILE'], pdf)
    .split('\n')
    .slice(2)
    .flatMap((line) => {
      // Fixed columns: name, type, encoding, then emb, sub and uni.
      const found = /^(\S+) .*?(yes|no) (yes|no) (yes|no) /.exec(line);
      return found === null ? [] : [{ name: found[1] ?? '', embedded: found[2] === 'yes', unicode: found[4] === 'yes' }];
    });
