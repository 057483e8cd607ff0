import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BatchPage } from '#lib/protocol/http';
import type { Display } from '#lib/units/display';
import { massText } from '#lib/units/format';
import type { Entry } from '#lib/work/batch/index';
import type { RecordSheet } from '#lib/words/record/sheet';
import { row, table, words } from '#lib/words/record/table';
import { stepsOf } from '#lib/words/review/line';
import { stepOf, targetStep } from '#lib/words/quantities';
import { spell } from '#server/export/pdf/spell';
import { recordPdf } from '#server/export/pdf/record';
import { BATCHES } from '#tests/browser/support/paper-batches';
import { appRig } from '#tests/support/app-rig';
import type { AppRig } from '#tests/support/app-rig';
import { pdfFonts, pdfInfo, pdfTags, pdfText } from '#tests/support/pdf';

const EVENTFUL = BATCHES.eventful();
const ID = EVENTFUL[0]?.batch ?? '';

describe('the batch record as a PDF', () => {
  let rig: AppRig;
  let page: BatchPage;
  beforeAll(async () => {
    rig = await appRig('real');
    await rig.enter(EVENTFUL);
    page = (await (await rig.get(`/api/batches/${ID}`)).json()) as BatchPage;
  });
  afterAll(() => rig.close());
  const pdf = async (query: string): Promise<Uint8Array> => {
    const answer = await rig.get(`/api/export/batches/${ID}/record.pdf?${query}`);
    expect(answer.headers.get('content-type')).toBe('application/pdf');
    return new Uint8Array(await answer.arrayBuffer());
  };
  /** Every mass of the batch as the display writes it. */
  const masses = (display: Display): readonly string[] =>
    page.lines.flatMap((line) => [
      ...line.contributions.map((one) =>
        massText(one.net, display, targetStep(line.tolerance, stepOf(one.stated) ?? stepsOf(line, display).weighed, display)),
      ),
      ...line.contributions.flatMap(({ stated }) => (stated === null ? [] : [`${stated.text.trim()} ${stated.unit}`])),
      massText(line.actual, display, stepsOf(line, display).weighed).replace(/ \S+$/, ''),
    ]);

  it.each([
    ['paper=A4', { locale: 'en-GB', mass: 'g', temperature: 'C' }, '595.28 x 841.89 pts (A4)'],
    ['paper=Letter&mass=oz&temperature=F&locale=en-US', { locale: 'en-US', mass: 'oz', temperature: 'F' }, '612 x 792 pts (letter)'],
  ] as const)('has every weight in text another program reads: %s', async (query, display, size) => {
    const bytes = await pdf(query);
    const text = pdfText(bytes);
    const wanted = masses(display);
    expect(wanted.length).toBeGreaterThan(25);
    expect(wanted.filter((mass) => !text.includes(mass))).toEqual([]);
    expect(pdfInfo(bytes)).toContain(size);
  });

  it('has what good practice asks for: lots, who and when, instruments, results, deviations, yield, mark, head', async () => {
    const text = pdfText(await pdf('paper=A4')).replaceAll(/\s+/g, ' ');
    for (const { lot } of page.lines) expect(text).toContain(lot);
    for (const said of [
      '26-11',
      'Alder & oat, formula version 3',
      'Tuesday 14 April 2026, 13:02 to 13:28',
      'Made by person-1',
      'Big scale',
    ])
      expect(text).toContain(said);
    expect(text).toContain('Small scale 2 never checked against a known mass');
    expect(text).toContain('Lye at joining 13:26 53.2 °C 30.0 to 50.0 °C');
    expect(text).toContain('Olive oil, 12.6 g over. 4.2 tolerances past its target, outside the limits.');
    expect(text).toContain('crossed out: over-poured, person-1');
    expect(text).toContain('Log 960.0 g, by hand 65.3 %');
    expect(text).toContain(page.record.link.match(/.{4}/g)?.join(' '));
  });

  it('can be read aloud and looks alike everywhere: tagged, with all its fonts in it', async () => {
    const bytes = await pdf('paper=A4');
    expect(pdfInfo(bytes)).toMatch(/Tagged: +yes/);
    const tags = pdfTags(bytes);
    for (const tag of ['Document', 'H1', 'H2', 'Table', 'TR', 'TH', 'TD', 'P']) expect(tags).toMatch(new RegExp(`^ *${tag}\\b`, 'm'));
    const fonts = pdfFonts(bytes);
    expect(fonts.length).toBeGreaterThan(1);
    expect(fonts.filter(({ embedded, unicode }) => !embedded || !unicode)).toEqual([]);
  });

  it('tells what was put right with its day, beside the line and with what it comes to', async () => {
    const line = page.lines.find(({ material }) => material === 'Olive oil');
    const one = line?.contributions.find(({ struck }) => struck === null);
    const last = EVENTFUL.at(-1)!;
    const body = { what: 'weight', entry: one?.entry, line: line?.line, of: '', was: String(one?.net), is: '650000', why: 'misread' };
    const own = { kind: 'amended', id: 'put-right', version: last.version + 1, wall: last.wall + 3 * 86_400_000, via: 'screen', body };
    await rig.enter([{ ...last, ...own } as unknown as Entry]);
    const text = pdfText(await pdf('paper=A4')).replaceAll(/\s+/g, ' ');
    expect(text).toContain('17 April 2026: Put right: Olive oil 650.0 g, not');
    expect(text.match(/\d\d? April 2026: /g)).toHaveLength(1);
    // Beside the name in the table of materials, over two lines.
    expect(text).toMatch(/Olive oil \(put right .*afterwards: 650\.0 g\)/);
  });

  it('refuses a paper that is none and a batch that is not there, in words', async () => {
    const problem = { error: expect.any(String), kept: expect.any(String), todo: expect.any(String) };
    for (const [path, status] of [
      [`/api/export/batches/${ID}/record.pdf?paper=Foolscap`, 400],
      [`/api/export/batches/${ID}/record.pdf?locale=%00`, 400],
      ['/api/export/batches/none/record.pdf', 404],
    ] as const) {
      const answer = await rig.get(path);
      expect([answer.status, await answer.json()]).toEqual([status, problem]);
    }
  });
});

const EMPTY_SHEET: RecordSheet = {
  title: 'Batch record',
  mark: '26-11',
  warning: null,
  facts: [],
  blocks: [],
  foot: { hash: '', spoken: '', code: '', sentences: [] },
};
const said = (text: string): Promise<Uint8Array> =>
  recordPdf({ ...EMPTY_SHEET, facts: [{ name: 'Product', said: [text] }] }, 'A4', new Date(0));

it('a title never stands alone at the foot of a page', async () => {
  const event = { letter: null, at: '13:02', by: '', head: ['Something happened.'], rest: [] };
  const rows = ['first row', 'second row', 'third row'].map((text) => row([[text]]));
  for (let count = 48; count < 58; count += 1) {
    const told = { kind: 'told', title: 'Story', note: 'note', events: Array.from({ length: count }, () => event) } as const;
    const blocks = [told, table('Instruments', [words('scale', 100)], rows, { note: 'A note.' })];
    const pages = pdfText(await recordPdf({ ...EMPTY_SHEET, blocks }, 'A4', new Date(0))).split('\f');
    expect(pages.find((one) => one.includes('Instruments'))).toContain('first row');
  }
});

describe('letters the face does not have', () => {
  it('are written with those it has, never as boxes', async () => {
    const bytes = await said('5 → 6 ≤ 7 ≥ 8 µg, Kyčera łąka, ± 2 °C × 3, 中文');
    expect(pdfText(bytes).replaceAll(/\s+/g, ' ')).toContain('5 to 6 at most 7 at least 8 ug, Kyčera łąka, ± 2 °C × 3, [U+4E2D][U+6587]');
  });

  it('are told by what the font itself says', () => {
    expect(spell('a→b', (_, point) => point < 0x80)).toEqual([{ text: 'atob', script: 'latin' }]);
    expect(spell('č', (script) => script === 'latin-ext')).toEqual([{ text: 'č', script: 'latin-ext' }]);
  });
});
