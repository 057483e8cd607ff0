import sharp from 'sharp';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import type { BarsPage } from '#lib/protocol/bars';
import { labelled } from '#lib/record/journal';
import { systemClock } from '#server/bench/system';
import { openStore } from '#server/store/open';
import { appendOf } from '#tests/support/appends';
import { freePort, serverProcess, tempFolder } from '#tests/support/server-rig';
import { KeptLog } from '#tests/support/store-rig';
import { afterQuiet, heeded } from './support/on-page';
import { section } from './support/on-paper';
import { BATCHES } from './support/paper-batches';
import { weighRound } from './support/round';
import { launch } from './support/theatre';

let folder: ReturnType<typeof tempFolder>;
let server: Awaited<ReturnType<typeof serverProcess>>;
let browser: Browser;
let page: Page;
let port: number;

beforeAll(async () => {
  folder = tempFolder();
  const store = await openStore({ dir: folder.path, realm: 'practice', clock: systemClock, log: new KeptLog() });
  for (const entry of BATCHES.plain()) {
    await store.bench.append(appendOf([labelled(entry)]));
  }
  await store.close();
  port = await freePort();
  server = await serverProcess(['--port', String(port), '--data', folder.path]);
  // A camera of its own, that shows a moving picture.
  browser = await launch(['--use-fake-ui-for-media-stream', '--use-fake-device-for-media-stream']);
  page = await browser.newPage({ viewport: { width: 1280, height: 800 }, locale: 'en-GB' });
});
afterAll(async () => {
  await browser.close();
  await server.end('SIGTERM');
  folder.remove();
});

const PICTURE = sharp({ create: { width: 300, height: 200, channels: 3, background: '#caa472' } })
  .png()
  .toBuffer();
const LOT = `bars:${BATCHES.plain()[0]?.batch}/1`;
const at = (path: string): string => `http://localhost:${port}${path}`;
const lot = async (): Promise<BarsPage> => (await fetch(at(`/api/bars/lot?id=${encodeURIComponent(LOT)}`))).json() as Promise<BarsPage>;
const press = (name: string | RegExp) => page.getByRole('button', { name }).click();
const type = (label: string, value: string) => page.getByLabel(label, { exact: true }).fill(value);

it('goes from a closed batch through unmould, cut and the scale to sold', async () => {
  await page.goto(at('/bars'));
  await press(/^Begin/);
  await press('It is out');
  await page.getByRole('link', { name: 'Cut', exact: true }).click();

  // 254 mm, trims of 3, a wire of 0.5: ten bars of 24.25 mm, twelve of 20.125 (arithmetic).
  await type('Length of the log, mm', '254');
  await type('Weight of the log, g', '1240');
  await type('Taken off each end, mm', '3');
  await type('One cut takes, mm', '0.5');
  await page.getByLabel('Ends faced').selectOption('2');
  await type('Label weight meant, g', '98');
  const fits = page.getByRole('row');
  await fits.filter({ hasText: '24.25' }).waitFor();
  await press(/^Choose: twelve bars of 20\.1/);
  // Said before the knife, with the fit that would do.
  await page.getByText(/^Twelve bars would fall under 98 g after cure\. Ten bars of 24\.25 mm would carry it/).waitFor();
  await press(/^Choose: ten bars of 24\.25/);
  await press('Cut into ten bars');
  await page.getByText('On the shelf', { exact: false }).first().waitFor();
  expect((await lot()).state).toMatchObject({ cut: { count: 10, thickness: 24_250, ends: 2 }, counts: { shelf: 10 } });

  await page.getByRole('link', { name: 'Weigh at the bench' }).click();
  await weighRound(page, /^Follow bars 1, 5, 10/, 3);
  const { state } = await lot();
  expect(state.weights.map(({ bar, scale, struck }) => [bar, scale?.instrument, struck])).toEqual(
    [1, 5, 10].map((bar) => [bar, 'practice-fine', null]),
  );
  // The pedal is a keyboard: back crosses the last one out, and that bar is asked for again.
  await heeded(
    page,
    () => page.keyboard.press('Backspace'),
    () => page.waitForSelector('main[data-phase="bars-put-on"]'),
  );
  expect((await lot()).state.weights.at(-1)?.struck).not.toBeNull();
  await afterQuiet(page);
  await page.locator('[data-end]').click();
  await page.getByRole('heading', { name: 'Weighings' }).waitFor();

  // Photographs: a file chosen, one looked at through the frame; side by side, and one of them crossed out.
  const colour = section(page, 'Colour over days');
  const chooser = page.waitForEvent('filechooser');
  await colour.getByText('Add a photograph', { exact: true }).click();
  await (await chooser).setFiles({ name: 'bar.png', mimeType: 'image/png', buffer: await PICTURE });
  await colour.getByRole('img', { name: 'What was just taken' }).waitFor();
  expect((await lot()).state.photos).toEqual([]);
  await type('Note, optional', 'by the north window');
  await press('Keep this photograph');
  await colour.getByText('by the north window').waitFor();
  await press('Look through the frame');
  await press('Take it');
  await press('Keep this photograph');
  await expect.poll(() => colour.getByRole('img', { name: /day of the cut$/ }).count()).toBe(2);
  const shown = await colour.locator('image').evaluateAll((all) => all.map((one) => one.getAttribute('href')));
  const kept = (await lot()).state.photos;
  expect(shown).toEqual(kept.map(({ sha256 }) => `/api/photos/${sha256}`));
  const [picture] = await Promise.all(shown.map(async (href) => (await fetch(at(href ?? ''))).headers.get('content-type')));
  expect(picture).toBe('image/jpeg');
  await colour
    .getByRole('button', { name: /^Cross out/ })
    .first()
    .click();
  await expect.poll(() => colour.locator('image').count()).toBe(1);
  expect((await lot()).state.photos.map(({ note, struck }) => [note, struck !== null])).toEqual([
    ['by the north window', true],
    ['', false],
  ]);
  const story = section(page, 'What happened');
  expect(await story.getByRole('rowheader', { name: 'photograph' }).count()).toBe(2);
  await story.getByRole('rowheader', { name: 'crossed out' }).first().waitFor();

  // The scale of a net check: a known mass, read by the bench; a bar by hand is told apart.
  await page.goto(at(`/bars/net?id=${encodeURIComponent(LOT)}`));
  await type('On the label, g', '98');
  await page.getByText('Not known: no known mass was put on it.').waitFor();
  await type('Known mass, g', '100');
  await page.getByRole('link', { name: 'Put it on the scale' }).click();
  await weighRound(page, /^Known mass: 100/, 1);
  await afterQuiet(page);
  await page.locator('[data-end]').click();
  await page.getByText('A known mass of 100 g: the scale showed').waitFor();
  await page.getByText(/^Good enough: off by/).waitFor();
  await type('One more by hand, g', '97.5');
  await press('Enter by hand');
  await page.getByText('; by hand.').waitFor();
  const [mass, typed] = (await lot()).state.weights.slice(-2);
  expect(mass).toMatchObject({ for: 'mass', known: 100_000, scale: { instrument: 'practice-fine' } });
  expect(Math.abs((mass?.net ?? 0) - 100_000)).toBeLessThan(1_000);
  expect(typed).toMatchObject({ for: 'net', net: 97_500, scale: null });
  await page.goto(at(`/bars/lot?id=${encodeURIComponent(LOT)}`));

  await type('How many', '3');
  await press('Sold');
  await page.waitForSelector('[data-count="sold"]:text-is("3")');
  expect((await lot()).state.counts).toMatchObject({ made: 10, shelf: 7, sold: 3 });
}, 400_000);
