import { beforeAll, expect, it } from 'vitest';
import type { LabelPage } from '#lib/protocol/label';
import type { BatchProof } from '#lib/protocol/proof';
import { NO_LABEL_SETTINGS } from '#lib/work/label/settings';
import { pdfFonts, pdfInfo, pdfTags, pdfText } from '#tests/support/pdf';
import { servedRecord } from '#tests/support/served-record';

const { at, get, post: send } = servedRecord([{ batch: 'a', lines: 3 }]);
const ID = encodeURIComponent('bars:a/1');
const post = async (path: string, body: object): Promise<number> => (await send(path, body)).status;
const page = (): Promise<LabelPage> => get(`/labels?id=${ID}`);
const bytes = async (path: string): Promise<Uint8Array> => new Uint8Array(await (await fetch(at(path))).arrayBuffer());

beforeAll(async () => {
  const mould = { id: null, name: 'Short log', cavities: 1 };
  expect(await post('/bars', { intent: 'begin-0001', batch: 'a', moulds: [1], mould })).toBe(200);
});

it('lists what was weighed, heaviest first, and says what is missing', async () => {
  const { list, materials, eu, net, from, notAlike, silent } = await page();
  // The three oils of the sample weigh 100, 101 and 102 g: the last line stands first.
  expect(list.items.map(({ name }) => name)).toEqual(['oil 2', 'oil 1', 'oil 0']);
  expect(list.unnamed).toEqual(['oil-0', 'oil-1', 'oil-2'].filter((id) => materials.some((one) => one.id === id)));
  expect(net).toBeNull();
  expect([from, notAlike, silent]).toEqual(['batch', [], []]);
  expect(eu.filter(({ state }) => state === 'missing').map(({ what }) => what)).toEqual(
    expect.arrayContaining(['responsible', 'content', 'durability', 'ingredients']),
  );
  expect((await fetch(at('/labels?id=bars:none/1'))).status).toBe(404);
});

it('takes the names and words of the workshop, and the weight of the bars', async () => {
  const names = Object.fromEntries(['oil-0', 'oil-1', 'oil-2'].map((id) => [id, { inci: `Inci ${id}`, saponifiedAs: `Sodium ${id}` }]));
  const responsible = { name: 'Brook & Alder', address: '1 Mill Lane\nOldham' };
  const settings = { ...NO_LABEL_SETTINGS, responsible, names, durability: { kind: 'opened', months: 12 }, estimated: true };
  expect(await post('/shelf/label/maker', { expected: 0, document: settings, note: '' })).toBe(200);
  expect(await post('/shelf/label/maker', { expected: 1, document: { ...settings, size: { width: 1, height: 1 } }, note: '' })).toBe(422);
  const cutter = { id: null, name: 'Knife', kind: 'adjustable' };
  const cut = { kind: 'cut', cutter, count: 3, ends: 0, testers: 0, thickness: null, log: null, mass: null };
  for (const [n, want] of [{ kind: 'note-unmould', state: 'out', note: '', room: null }, cut, { kind: 'label', net: 98_000 }].entries())
    expect(await post(`/bars/lot?id=${ID}`, { intent: `intent-000${n}`, expectedVersion: null, want })).toBe(200);
  // A weight that no label can state would leave the lot without its label's page.
  for (const [n, wrong] of [999, 25_000_001].entries()) {
    const said = { intent: `wrong-000${n}`, expectedVersion: null, want: { kind: 'label', net: wrong } };
    expect(await post(`/bars/lot?id=${ID}`, said)).toBe(409);
  }
  const { list, eu, net, version, layout } = await page();
  expect(list.items.map(({ name }) => name)).toEqual(['Inci oil-2', 'Inci oil-1', 'Inci oil-0']);
  expect([net, version, layout.fits]).toEqual([98_000, 1, true]);
  expect(eu.filter(({ state }) => state === 'missing')).toEqual([]);
});

it('is drawn as SVG, and as PDF that another program reads', async () => {
  const { mark } = await page();
  const svg = Buffer.from(await bytes(`/labels/label.svg?id=${ID}`)).toString();
  expect(svg).toMatch(/^<svg [^>]*width="90mm" height="60mm"/);
  for (const text of ['98 g', 'Net Wt 3.45 oz', 'Inci oil-2', 'Brook &amp; Alder', `Batch ${mark}`, 'Practice: not for sale.'])
    expect(svg).toContain(text);
  const [one, sheet] = [await bytes(`/labels/label.pdf?id=${ID}`), await bytes(`/labels/label.pdf?id=${ID}&sheet=a4`)];
  expect((await fetch(at(`/labels/label.pdf?id=${ID}&sheet=a0`))).status).toBe(400);
  const { head } = await get<BatchProof>('/proof/batch/a');
  // What its code holds leads to the bars as their mark alone does.
  const followed = async (said: string) => get<{ mark?: string }>(`/follow/bars?mark=${encodeURIComponent(said)}`);
  expect((await followed(`${mark}\n${head?.words ?? ''}`)).mark).toBe(mark);
  // 90 × 60 mm in points.
  const info = pdfInfo(one);
  expect(info).toMatch(/Page size:\s+255\.1\d* x 170\.0\d*/);
  const text = pdfText(one).replaceAll(/\s+/g, ' ');
  for (const said of ['Net Wt 3.45 oz', 'Inci oil-2, Inci oil-1', `Record: ${head?.words}.`]) expect(text).toContain(said);
  expect(pdfFonts(one).every(({ embedded, unicode }) => embedded && unicode)).toBe(true);
  expect(pdfText(sheet).match(/Net Wt/g)).toHaveLength(8);
  // Whoever does not see it is told its title, its paragraphs as one each, its signs and its code.
  expect(info).toMatch(/Tagged:\s+yes/);
  expect(info).toMatch(new RegExp(`Title:\\s+Label of .+, batch ${mark}`));
  const tags = pdfTags(one);
  expect(tags.match(/H1 \(block\)/g)).toHaveLength(1);
  expect(tags).toMatch(/"Ingredients: Inci oil-2, Inci oil-1, Inci oil-0\."/);
  expect(
    Buffer.from(one)
      .toString('latin1')
      .match(/\/Alt \([^)]*\)/g),
  ).toEqual([
    '/Alt (Estimated sign)',
    '/Alt (Open jar, 12M: good for so many months after it was opened)',
    `/Alt (Code of batch ${mark}, for a phone to read)`,
  ]);
  expect(pdfTags(sheet).match(/^ {2}Sect/gm)).toHaveLength(8);
});
