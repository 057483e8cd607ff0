import { beforeAll, describe, expect, it } from 'vitest';
import type { LabelPage } from '#lib/protocol/label';
import type { BatchProof } from '#lib/protocol/proof';
import { codeIn, damaged, partOf, pdfPixels, svgPixels } from '#tests/support/read-code';
import type { Pixels } from '#tests/support/read-code';
import { servedRecord } from '#tests/support/served-record';

/** Shares of a code's sides: in a square of the second more of its words lie than the 15 % that level M mends at the most (ISO/IEC 18004). */
const [LITTLE, MUCH] = [0.12, 0.55];

/** Read whole and, a little damaged, read the same; damaged beyond what such a code mends, not read at all. */
const readFrom = (picture: Pixels): string | undefined => {
  const found = codeIn(picture);
  if (found === null) return undefined;
  expect(codeIn(damaged(picture, found.at, LITTLE))?.text).toBe(found.text);
  expect(codeIn(damaged(picture, found.at, MUCH))).toBeNull();
  return found.text;
};

describe('codes, drawn by other programs and read by a reader of its own', () => {
  const record = servedRecord([{ batch: 'a', lines: 3 }], { host: '0.0.0.0' });
  const label = `?id=${encodeURIComponent('bars:a/1')}`;
  const PATHS = {
    svg: `/labels/label.svg${label}`,
    pdf: `/labels/label.pdf${label}`,
    sheet: `/labels/label.pdf${label}&sheet=a4`,
    tablet: '/qr',
    head: '/proof/batch/a/code',
    paper: '/export/batches/a/record.pdf',
  } as const;
  let files: Readonly<Record<keyof typeof PATHS, Uint8Array>>;
  let mark: string;
  let head: BatchProof['head'];
  // All is asked for before anything is read: a line the server closes meanwhile is no fault of a code.
  beforeAll(async () => {
    const mould = { id: null, name: 'Short log', cavities: 1 };
    expect((await record.post('/bars', { intent: record.intent(), batch: 'a', moulds: [1], mould })).status).toBe(200);
    ({ mark } = await record.get<LabelPage>(`/labels${label}`));
    ({ head } = await record.get<BatchProof>('/proof/batch/a'));
    const asked = Object.entries(PATHS).map(async ([name, path]) => [
      name,
      new Uint8Array(await (await fetch(record.at(path))).arrayBuffer()),
    ]);
    files = Object.fromEntries(await Promise.all(asked)) as typeof files;
  });

  it('a label says its mark and the words of the record, as a picture and on paper, alone and a sheet full', async () => {
    const said = `${mark}\n${head?.words}`;
    expect(said).toMatch(/^a mark\/1\n([a-z]+ ){7}[a-z]+$/);
    expect(readFrom(await svgPixels(files.svg, 120))).toBe(said);
    expect(readFrom(await pdfPixels(files.pdf, 1))).toBe(said);
    // The last of two columns and four rows.
    const last = partOf(await pdfPixels(files.sheet, 1), [100 / 210, 194 / 297, 190 / 210, 254 / 297]);
    expect(codeIn(last)?.text).toBe(said);
  });

  it('the code for a tablet is its address', async () => {
    const address = record.tabletAddress();
    expect(address).toMatch(/^http:/);
    expect(readFrom(await svgPixels(files.tablet, 300))).toBe(address);
  });

  it('the code of a head is the head that was signed, on the page and at the end of the record', async () => {
    expect(head?.qr).toMatch(/\n.+\n/);
    expect(readFrom(await svgPixels(files.head, 300))).toBe(head?.qr);
    expect(readFrom(await pdfPixels(files.paper, 1))).toBe(head?.qr);
  });
});
