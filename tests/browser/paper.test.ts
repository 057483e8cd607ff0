import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import type { BatchListRow, BatchPage } from '#lib/protocol/http';
import type { ReviewLine } from '#lib/work/batch/index';
import { driveBatch } from '#tests/support/drive-batch';
import { freePort, screenAt, serverProcess, tempFolder } from '#tests/support/server-rig';
import type { ScreenRig, ServerProcess } from '#tests/support/server-rig';
import { afterQuiet } from './support/on-page';
import { isSound } from './support/on-paper';
import { launch, SIZES } from './support/theatre';
import type { Size } from './support/theatre';

const PAGES = { today: '/', batches: '/batches', review: '/batches/review', setup: '/setup' } as const;

/** A server of its own with the production pages, in practice, and a browser on it. */
const openShop = (args: readonly string[] = []) => {
  const folder = tempFolder();
  let browser: Browser;
  let server: ServerProcess;
  let port = 0;
  const start = async (): Promise<void> => {
    server = await serverProcess(['--port', String(port), '--data', folder.path, ...args]);
  };
  beforeAll(async () => {
    port = await freePort();
    await start();
    browser = await launch();
  });
  afterAll(async () => {
    await browser?.close();
    if (server?.child.exitCode === null && server.child.signalCode === null) await server.end('SIGTERM');
    folder.remove();
  });
  const url = (path: string): string => `http://localhost:${port}${path}`;
  return {
    port: () => port,
    url,
    start,
    end: (signal: NodeJS.Signals) => server.end(signal),
    get: async <T>(path: string): Promise<T> => (await fetch(url(path))).json() as Promise<T>,
    /** A page of its own, opened and drawn. */
    open: async (path: string, size: Size = 'wide'): Promise<Page> => {
      const page = await browser.newPage({ viewport: SIZES[size], locale: 'en-GB' });
      await page.goto(url(path));
      await page.waitForSelector('h1');
      return page;
    },
  };
};

/** Next has an announcer of its own with this role, outside of the page. */
const ALERT = 'main [role="alert"]';

const text = (page: Page, selector = 'main'): Promise<string> => page.locator(selector).innerText();
const heading = (page: Page, name: string | RegExp) => page.getByRole('heading', { level: 1, name });
/** Nothing wider than the window, and nothing that axe finds. */

describe('before anything was made', () => {
  const shop = openShop();

  it('Today teaches how to begin', async () => {
    const page = await shop.open(PAGES.today);
    await heading(page, 'Nothing made yet').waitFor();
    expect(await page.getByRole('link', { name: 'Start practice' }).getAttribute('href')).toBe('/bench');
    expect(await text(page)).toContain('Before any lye');
    expect(await page.getByRole('link', { name: 'empty', exact: true }).count()).toBe(1);
    expect(await text(page)).toContain('nothing weighed here can pass for a real record');
    await page.close();
  });

  it('Batches says how one comes there', async () => {
    const page = await shop.open(PAGES.batches);
    await page.getByText('Nothing has been weighed here yet').waitFor();
    expect(await page.getByRole('table').count()).toBe(0);
    await page.close();
  });

  it.each([
    ['no id', '/batches/review', 'No batch is named in this address.'],
    ['an id of nothing', '/batches/review?id=nothing', 'There is no such batch in this workshop.'],
    ['an id of nonsense', `/batches/review?id=${encodeURIComponent('../health?x=<b>')}`, 'There is no such batch in this workshop.'],
  ])('Review with %s says what to do', async (_name, path, error) => {
    const page = await shop.open(path);
    const alert = page.locator(ALERT);
    await alert.waitFor();
    expect(await alert.innerText()).toContain(error);
    expect(await alert.innerText()).toContain('from the list of batches');
    await isSound(page);
    await page.close();
  });

  it.each(Object.keys(SIZES) as Size[])('every page at %s is sound', async (size) => {
    for (const path of [PAGES.today, PAGES.batches, PAGES.setup]) {
      const page = await shop.open(path, size);
      await page.locator('main h2').first().waitFor();
      await isSound(page);
      await page.close();
    }
  });

  it.each([PAGES.today, PAGES.batches, `${PAGES.review}?id=any`, PAGES.setup])(
    '%s says that it asks, with no empty heading',
    async (path) => {
      const page = await shop.open(PAGES.batches);
      await page.route('**/api/{batches,instruments}*', () => undefined);
      await page.route('**/api/batches/*', () => undefined);
      await page.goto(shop.url(path));
      await page.getByText('Asking the bench machine').first().waitFor();
      for (const one of await page.getByRole('heading').allInnerTexts()) expect(one.trim()).not.toBe('');
      await isSound(page);
      await page.close();
    },
  );

  it('the running head names only pages that are there', async () => {
    const page = await shop.open(PAGES.today);
    const links = await page.getByRole('navigation').getByRole('link').all();
    for (const link of links) expect((await fetch(shop.url((await link.getAttribute('href')) ?? ''))).status).toBe(200);
    expect(links).toHaveLength(7);
    await page.close();
  });
});

const row = (page: Page, id: string) => page.locator(`tr[data-line="${id}"]`);
/** Grams as the page writes them; unseen places are no digits. */
const gramsIn = (shown: string): number => Number(shown.replace('−', '-').replace('+', ''));

describe('a practice batch on paper', () => {
  const shop = openShop();
  let screen: ScreenRig;
  let review: BatchPage;
  let path: string;

  beforeAll(async () => {
    screen = screenAt(shop.port());
    await screen.greeted();
    const batch = await driveBatch(screen, {
      plan: 'meadowsweet',
      over: { coconut: { by: 4, answer: 'cross-out' }, olive: { by: 4, answer: 'carry-on' } },
      byHand: { sunflower: '100.2', 'meadowsweet-scent': '12.05', water: '142.0', soda: '71.0' },
    });
    review = await shop.get<BatchPage>(`/api/batches/${batch.id}`);
    path = `/batches/review?id=${batch.id}`;
  }, 240_000);
  afterAll(() => screen?.close());

  const lineOf = (id: string): ReviewLine => {
    const line = review.lines.find((one) => (one.line as string) === id);
    if (line === undefined) throw new Error(`no line ${id}`);
    return line;
  };
  it('shows the actual weight of every line, in the voice of its source', async () => {
    const page = await shop.open(path);
    await row(page, 'coconut').waitFor();
    for (const line of review.lines) {
      const cell = row(page, line.line).locator('[data-actual]');
      const counted = cell.locator('[data-voice="measured"]').filter({ hasNot: page.locator('s') });
      const typed = line.byHand;
      const shown = await cell.evaluate((element) =>
        [...element.childNodes]
          .filter((node) => !(node instanceof HTMLElement && (node.tagName === 'S' || node.ariaHidden === 'true')))
          .map((node) => (node instanceof HTMLElement ? (node.firstChild?.textContent ?? '') : (node.textContent ?? '')))
          .join(''),
      );
      expect(gramsIn(shown) * 1000, line.line).toBeCloseTo(line.actual, 3);
      expect(await counted.count(), line.line).toBe(typed ? 0 : 1);
      if (typed) expect(await row(page, line.line).locator('th').innerText()).toContain('by hand');
    }
    await page.close();
  });

  it('keeps a crossed-out weight beside the one that counts, and says how the line was answered', async () => {
    const page = await shop.open(path);
    const crossed = lineOf('coconut').contributions.find(({ struck }) => struck !== null);
    expect(crossed).toBeDefined();
    expect(gramsIn(await row(page, 'coconut').locator('s').innerText()) * 1000).toBeCloseTo(crossed?.net ?? NaN, 3);
    expect(await row(page, 'coconut').locator('[data-bar="crossed"]').count()).toBe(1);
    const story = await text(page, '[data-story]');
    // As the answer to its over-pour, or, where a way out took the same back out, as a weight of its own.
    expect(story).toMatch(/Coconut oil, [\d.]+ g over\./);
    expect(story).toMatch(/Crossed out and weighed again\.|Coconut oil, [\d.]+ g crossed out\./);
    // By a way out that was worked out, or by a word where none came in time.
    expect(story).toMatch(/Olive oil, [\d.]+ g over\. .*(?:A way out was chosen|Left as it was)\./);
    expect(story).toMatch(/Olive oil: the over-pour was left as it was\.|Left as it was\./);
    expect(await row(page, 'olive').locator('[data-bar="outside"]').count()).toBe(1);
    await page.close();
  });

  it('opens a difference to the weights it comes from, by keyboard alone', async () => {
    const page = await shop.open(path);
    const opener = row(page, 'coconut').getByRole('button', { name: /Workings of Coconut oil/ });
    await opener.focus();
    await page.keyboard.press('Enter');
    expect(await opener.getAttribute('aria-expanded')).toBe('true');
    const workings = page.locator(`[id="${await opener.getAttribute('aria-controls')}"]`);
    const stated = lineOf('coconut').contributions.map(({ stated: said }) => said?.text ?? '');
    expect(stated.length).toBeGreaterThan(1);
    for (const said of stated) expect(await workings.innerText()).toContain(said);
    expect(await workings.innerText()).toContain('crossed out');
    await isSound(page);
    await page.keyboard.press('Enter');
    expect(await opener.getAttribute('aria-expanded')).toBe('false');
    await page.close();
  });

  it('carries one letter for one departure in the row and in the story', async () => {
    const page = await shop.open(path);
    for (const id of ['coconut', 'olive', 'sunflower']) {
      const letters = (await row(page, id).locator('[data-letter]').innerText()).trim();
      expect(letters, id).toMatch(/^[a-z]+$/);
      const told = page.locator(`[data-story] li[data-letter="${letters.at(0)}"]`);
      expect(await told.innerText(), id).toContain(lineOf(id).material);
    }
    await page.close();
  });

  it('says that the scales were never checked, gives the two temperatures, and ends with the head of the record', async () => {
    const page = await shop.open(path);
    await row(page, 'coconut').waitFor();
    const shown = await text(page);
    expect(shown).toContain('never checked against a known mass');
    expect(shown).toMatch(/Joined at \d\d:\d\d\./);
    expect(review.joining).not.toBeNull();
    expect((await text(page, '[data-hash]')).replaceAll(/\s/g, '')).toBe(review.record.link);
    expect(shown).toContain(`${review.record.entries} entries of this batch`);
    expect(shown).toContain('this record can never pass for a real one');
    await page.close();
  });

  it('is in the list and on Today, with what to look at first', async () => {
    const listed = await shop.open(PAGES.batches);
    const cells = listed.locator(`tr[data-batch="${review.summary.id}"]`);
    await cells.waitFor();
    expect(await cells.locator('td').last().innerText()).toBe(String(review.summary.byHand));
    expect(review.summary.byHand).toBe(4);
    await cells.getByRole('link').first().click();
    await heading(listed, /Meadowsweet, reviewed/).waitFor();
    await listed.close();
    const today = await shop.open(PAGES.today);
    await today.locator(`tr[data-batch="${review.summary.id}"]`).waitFor();
    await today.close();
  });

  it.each(Object.keys(SIZES) as Size[])('every page at %s is sound', async (size) => {
    for (const one of [PAGES.today, PAGES.batches, path, PAGES.setup]) {
      const page = await shop.open(one, size);
      await page.locator('main table').first().waitFor();
      await isSound(page);
      await page.close();
    }
  });

  it('follows the units of this screen, everywhere', async () => {
    const page = await shop.open(PAGES.setup);
    await page.getByRole('radio', { name: 'ounces', exact: true }).check();
    await page.getByRole('radio', { name: '°F' }).check();
    await page.goto(shop.url(path));
    await row(page, 'coconut').waitFor();
    expect(await page.getByRole('columnheader', { name: 'actual oz' }).count()).toBe(1);
    const joined = await text(page, '[data-story] li[data-code="joined"]');
    const fahrenheit = ((review.joining?.lye ?? NaN) / 1000) * 1.8 + 32;
    expect(joined).toContain(`${fahrenheit.toFixed(1)} °F`);
    await page.evaluate(() => localStorage.clear());
    await page.close();
  });

  it('writes pounds and ounces with the decimal mark of this screen in every table', async () => {
    const page = await shop.open(PAGES.setup);
    await page.getByRole('radio', { name: 'pounds and ounces' }).check();
    await page.getByRole('radio', { name: '1,5' }).check();
    for (const one of [PAGES.today, PAGES.batches, path]) {
      await page.goto(shop.url(one));
      await page.locator('main tbody tr').first().waitFor();
      const tables = (await page.locator('main tbody').allInnerTexts()).join(' ');
      expect(tables, one).toMatch(/\d lb \d+,\d+ oz/);
      expect(tables, one).not.toMatch(/\d\.\d/);
    }
    await page.evaluate(() => localStorage.clear());
    await page.close();
  });

  it('prints the record without the frame, with lots and room to sign', async () => {
    const page = await shop.open(path);
    await row(page, 'coconut').waitFor();
    const signature = page.getByText('Signature');
    expect(await signature.isVisible()).toBe(false);
    await page.emulateMedia({ media: 'print' });
    expect(await signature.isVisible()).toBe(true);
    expect(await page.getByRole('navigation').isVisible()).toBe(false);
    expect(await row(page, 'coconut').getByText('CO 26-07').isVisible()).toBe(true);
    await page.close();
  });
});

describe('a scale checked with one known mass', () => {
  const shop = openShop();

  it('is entered from Setup and shown in the review with its difference', async () => {
    const screen = screenAt(shop.port());
    await screen.greeted();
    await screen.lease('take');
    await screen.intent({ kind: 'start', plan: 'meadowsweet', lots: {} });
    const scene = (act: Parameters<typeof screen.socket.emit<'scene'>>[1]) => new Promise((done) => screen.socket.emit('scene', act, done));
    // The empty lye jug stands in for a known mass: the practice bench knows what it weighs.
    const jug = Object.values(screen.batch()?.vessels ?? {}).find(({ plan }) => plan.use === 'liquid');
    await scene({ act: 'set-down', vessel: jug?.plan.id ?? '', scale: 'main' });
    await screen.frame(({ scales }) =>
      scales.some(({ role, gross, motion }) => role === 'main' && (gross ?? 0) > 50_000 && motion === 'stable'),
    );
    await screen.lease('release');

    const page = await shop.open(PAGES.setup);
    await page.getByRole('button', { name: 'Look closer at big scale' }).click();
    await page.getByLabel('Known mass, g').fill('heavy');
    await page.getByRole('button', { name: 'Enter the check' }).click();
    await page.getByText('That is no mass.').waitFor();
    const known = ((jug?.plan.empty ?? 0) - 500) / 1000;
    await page.getByLabel('Known mass, g').fill(String(known));
    await page.getByRole('button', { name: 'Enter the check' }).click();
    await page.getByText('Entered. The review shows it').waitFor();

    const id = screen.batch()?.id ?? '';
    const [check] = (await shop.get<BatchPage>(`/api/batches/${id}`)).checks;
    expect(check).toMatchObject({ instrument: 'practice-main', nominal: known * 1000 });
    expect(Math.abs((check?.difference ?? 0) - 500)).toBeLessThanOrEqual(200);
    await page.goto(shop.url(`/batches/review?id=${id}`));
    await page.getByRole('button', { name: /Workings of the check of the big scale/ }).waitFor();
    expect(screen.batch()?.checks).toHaveProperty('practice-main');
    await page.close();
    screen.close();
  });
});

const rowAt = (n: number): BatchListRow => ({
  id: `batch-${n}`,
  mark: `26-${n}`,
  realm: 'practice',
  name: 'Meadowsweet',
  status: 'closed',
  startedWall: 1_780_000_000_000 + n * 86_400_000,
  endedWall: 1_780_000_000_000 + n * 86_400_000 + 7_200_000,
  lines: { closed: 6, of: 6 },
  actual: 725_000,
  planned: 725_000,
  overPours: 0,
  overrides: 0,
  byHand: 0,
  lots: [],
});

describe('a long list', () => {
  const shop = openShop();
  const rows = Array.from({ length: 60 }, (_, at) => rowAt(60 - at));

  it('shows older batches when asked, keeps what it has when they do not come', async () => {
    const page = await shop.open(PAGES.today);
    let broken = false;
    await page.route('**/api/batches?*', async (route) => {
      const { searchParams } = new URL(route.request().url());
      const before = searchParams.get('before');
      if (searchParams.has('status')) return route.fulfill({ json: { batches: [], next: null } });
      if (broken)
        return route.fulfill({
          status: 500,
          json: { error: 'Something went wrong.', kept: 'What was committed is kept.', todo: 'Try again.' },
        });
      const from = before === null ? 0 : rows.findIndex(({ id }) => id === before) + 1;
      const batches = rows.slice(from, from + 50);
      return route.fulfill({ json: { batches, next: from + 50 < rows.length ? batches.at(-1)?.id : null } });
    });
    await page.goto(shop.url(PAGES.batches));
    const shown = page.locator('tr[data-batch]');
    await expect.poll(() => shown.count()).toBe(50);
    broken = true;
    await page.getByRole('button', { name: 'Show older batches' }).click();
    await page.locator(ALERT).waitFor();
    expect(await shown.count()).toBe(50);
    broken = false;
    await page.getByRole('button', { name: 'Show older batches' }).click();
    await expect.poll(() => shown.count()).toBe(60);
    expect(await page.locator(ALERT).count()).toBe(0);
    expect(await page.getByRole('button', { name: 'Show older batches' }).count()).toBe(0);
    await page.close();
  });
});

describe('parked batches', () => {
  const shop = openShop();
  const rows = Array.from({ length: 60 }, (_, at) => rowAt(60 - at));
  const parked = Array.from({ length: 53 }, (_, at) => ({ ...rowAt(-1 - at), status: 'parked' as const }));

  it('stand before the others, all of them for the asking, however old', async () => {
    const page = await shop.open(PAGES.today);
    await page.route('**/api/batches?*', async (route) => {
      const { searchParams } = new URL(route.request().url());
      const all = searchParams.get('status') === 'parked' ? parked : rows;
      const from = all.findIndex(({ id }) => id === searchParams.get('before')) + 1;
      const batches = all.slice(from, from + 50);
      return route.fulfill({ json: { batches, next: from + 50 < all.length ? batches.at(-1)?.id : null } });
    });
    await page.goto(shop.url(PAGES.batches));
    const section = page.getByRole('region', { name: 'Parked' });
    const shown = section.locator('tr[data-batch]');
    await expect.poll(() => shown.count()).toBe(50);
    await section.getByRole('button', { name: 'Show older batches' }).click();
    await expect.poll(() => shown.count()).toBe(53);
    expect(await section.locator('tr[data-batch="batch--53"]').count()).toBe(1);
    await page.close();
  });
});

describe('a bench machine that is gone', () => {
  const shop = openShop();

  it('is said on every page with what was kept and what to do, and the page goes on by itself', async () => {
    const today = await shop.open(PAGES.today);
    const setup = await shop.open(PAGES.setup);
    await today.getByText('are fresh').waitFor();
    await setup.locator('tr[data-instrument]').first().waitFor();
    await shop.end('SIGKILL');
    for (const page of [today, setup]) {
      const alert = page.locator(ALERT).first();
      await alert.waitFor();
      expect(await alert.innerText()).toContain('The bench machine does not answer.');
      expect(await alert.innerText()).toContain('in its record');
      expect(await alert.innerText()).toContain('npm start');
      await page.getByRole('link', { name: 'not connected' }).waitFor();
    }
    // What an instrument says is not known any more: no number of it stands anywhere.
    await expect.poll(() => setup.locator('tr[data-instrument]').count()).toBe(0);
    expect(await text(today)).not.toContain('are fresh');
    expect(await today.locator('main [data-voice="measured"]').count()).toBe(0);
    await isSound(today);

    const late = await shop.open(PAGES.today).catch(() => null);
    expect(late).toBeNull();
    await shop.start();
    await today.getByText('are fresh').waitFor();
    await setup.locator('tr[data-instrument]').first().waitFor();
    for (const page of [today, setup]) {
      expect(await page.locator(ALERT).count()).toBe(0);
      await page.close();
    }
  });
});

describe('setting up', () => {
  const shop = openShop();

  it('shows the bytes of an instrument as they come, and what they were read as', async () => {
    const page = await shop.open(PAGES.setup);
    await page.getByRole('button', { name: 'Look closer at small scale' }).click();
    const raw = page.locator('table[data-raw] tbody tr').first();
    await raw.waitFor();
    expect(await raw.innerText()).toMatch(/S [SD] +-?[\d.]+ g/);
    expect(await raw.innerText()).toMatch(/53 20 5[34] 20/);
    expect(await raw.innerText()).toMatch(/g (stable|moving)/);
    await isSound(page);
    await page.close();
  });

  it('refuses a binding that cannot be, field by field', async () => {
    const page = await shop.open(PAGES.setup);
    await page.getByLabel('Its name, as read aloud').fill(' ');
    await page.getByLabel('Carries at most, g').fill('1.250');
    await page.getByLabel('Steps of, g').fill('fine');
    await page.getByRole('button', { name: 'Bind it' }).click();
    await page.getByText('Nothing was bound: four fields need another look.').waitFor();
    for (const [label, words] of [
      ['Its name, as read aloud', 'at most 40 letters'],
      ['Port', 'Choose the port'],
      ['Carries at most, g', '1.250 or 1250'],
      ['Steps of, g', 'no weight in grams'],
    ] as const) {
      const field = page.getByLabel(label, { exact: true });
      expect(await field.getAttribute('aria-invalid'), label).toBe('true');
      expect(await page.locator(`[id="${await field.getAttribute('aria-describedby')}"]`).innerText(), label).toContain(words);
    }
    await isSound(page);
    await page.close();
  });

  it(
    'binds for the real bench while practising, leaves practice only when held, and unbinds when asked twice',
    { timeout: 90_000 },
    async () => {
      const page = await shop.open(PAGES.setup);
      await page.getByLabel('Port', { exact: true }).selectOption('another path');
      await page.getByLabel('Path of the port').fill('/dev/serial/by-id/no-such-scale');
      await page.getByLabel('Carries at most, g').fill('5000');
      await page.getByLabel('Steps of, g').fill('0,1');
      await page.getByRole('button', { name: 'Bind it' }).click();
      await page.getByText('Kept for the real bench: big scale.').waitFor();
      await page.getByText('Waiting for the real bench: big scale.').waitFor();

      const leave = page.getByRole('button', { name: /Leave practice/ });
      await leave.click();
      expect(await heading(page, 'The practice bench').count()).toBe(1);
      await afterQuiet(page);
      await leave.hover();
      await page.mouse.down();
      await page.locator('[data-hold="full"]').waitFor();
      await page.mouse.up();
      await heading(page, 'The bench and its instruments').waitFor();
      const row = page.locator('tr[data-instrument="scale-main"]');
      await row.waitFor();
      await page.getByText('Nothing is plugged in under this name.').waitFor();
      await isSound(page);
      expect(await shop.get('/api/instruments')).toMatchObject({
        realm: 'real',
        instruments: [{ config: { path: '/dev/serial/by-id/no-such-scale', capacity: 5_000_000, division: 100 } }],
      });

      await page.getByRole('button', { name: 'Look closer at big scale' }).click();
      await page.getByRole('button', { name: 'Unbind' }).click();
      expect(await row.count()).toBe(1);
      await page.getByRole('button', { name: 'Yes, unbind it' }).click();
      await page.getByText('No instrument is bound yet.').waitFor();
      await page.close();
    },
  );
});
