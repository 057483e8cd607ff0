import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Locator, Page } from 'playwright-core';
import type { ShelfDocument, ShelfList } from '#lib/protocol/shelf';
import { readFile } from '#lib/work/formula/index';
import type { Formula, Lot } from '#lib/work/formula/index';
import { freePort, serverProcess, tempFolder } from '#tests/support/server-rig';
import type { ServerProcess } from '#tests/support/server-rig';
import { isSound, section } from './support/on-paper';
import { launch, SIZES } from './support/theatre';

describe('a formula’s sheet', () => {
  const folder = tempFolder();
  let browser: Browser;
  let server: ServerProcess;
  let page: Page;
  const url = (path: string): string => `http://localhost:${server.port}${path}`;
  const get = async <T>(path: string): Promise<T> => (await fetch(url(path))).json() as Promise<T>;
  const put = async (noun: string, document: { readonly id: string }, expected = 0): Promise<void> => {
    const response = await fetch(url(`/api/shelf/${noun}/${document.id}`), {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ expected, document, note: '' }),
    });
    expect(response.status).toBe(200);
  };
  const versionsOf = async (id: string): Promise<ShelfDocument['versions']> =>
    (await get<ShelfDocument>(`/api/shelf/formula/${id}`)).versions;
  const idHere = (): string => new URL(page.url()).searchParams.get('id') ?? '';
  const openSample = async (name: string): Promise<void> => {
    await page.goto(url('/formulas'));
    await page.getByRole('link', { name, exact: true }).click();
    await page.waitForSelector('[data-answer="plan"]');
  };
  /** The text of what a button saves. */
  const saved = async (button: string): Promise<{ readonly name: string; readonly text: string }> => {
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: button }).click()]);
    return { name: download.suggestedFilename(), text: readFileSync(await download.path(), 'utf8') };
  };
  beforeAll(async () => {
    server = await serverProcess(['--port', String(await freePort()), '--data', folder.path, '--scale', 'practice']);
    browser = await launch();
    page = await browser.newPage({ viewport: SIZES.wide, locale: 'en-GB', acceptDownloads: true });
    page.setDefaultTimeout(15_000);
    await page.goto(url('/formulas'));
    await page.getByRole('button', { name: 'Put the sample formulas on the shelf' }).click();
    await page.getByRole('link', { name: 'Alder & oat' }).waitFor();
  });
  afterAll(async () => {
    await browser?.close();
    await server?.end('SIGTERM');
    folder.remove();
  });

  it('the samples bring how that workshop works, and nothing that is every maker’s own to say', async () => {
    const [habits] = (await get<ShelfList>('/api/shelf/habits')).items;
    expect(habits?.document).toMatchObject({
      room: '20',
      losses: { residue: { grams: '25' } },
      pace: { how: 'typed' },
      superfat: null,
      lye: null,
    });
  });

  it('prints a weigh sheet with blanks: steps between their lines, decimals under each other, and nothing that is typed into', async () => {
    await openSample('Alder & oat');
    await page.emulateMedia({ media: 'print' });
    const rows = page.locator('table[data-plan] tbody tr');
    const kinds = await rows.evaluateAll((all) => all.map((row) => row.dataset['step'] ?? row.dataset['line'] ?? ''));
    const soda = kinds.indexOf('soda');
    expect(kinds[soda - 1]).toBe('protect');
    expect(kinds.slice(soda + 1)).toEqual(['confirm-cold', 'dissolve', 'meet', 'join', 'pour']);
    expect(kinds.indexOf('melt')).toBeGreaterThan(kinds.indexOf('olive'));
    for (const head of ['weighed', 'lot']) expect(await page.getByRole('columnheader', { name: head, exact: true }).isVisible()).toBe(true);
    // A blank of its own for every line, wide enough to write into, above a rule.
    const blank = page.locator('tr[data-line] td').nth(3);
    expect(await blank.evaluate((cell) => cell.getBoundingClientRect().width)).toBeGreaterThan(80);
    for (const field of ['Name', 'Superfat, %']) expect(await page.getByLabel(field, { exact: true }).isVisible()).toBe(false);
    expect(await page.getByRole('button', { name: 'Print the weigh sheet' }).isVisible()).toBe(false);
    expect(await page.getByText('Superfat 5.0 %; hydroxide in the lye 33.3 %.').isVisible()).toBe(true);
    expect(await page.getByText('Weighed by').isVisible()).toBe(true);
    // Of one scale, to one place.
    const weights = await page.locator('tr[data-line] td:nth-child(3)').allInnerTexts();
    expect(new Set(weights.map((text) => text.trim().split('.')[1]?.length))).toEqual(new Set([1]));
    await page.emulateMedia({ media: 'screen' });
    expect(await page.getByText('Weighed by').isVisible()).toBe(false);
  });

  it('saves the formula as a file another workshop reads, and its lines as a table', async () => {
    const json = await saved('Save as a file');
    expect(json.name).toBe('alder-oat.json');
    const read = readFile(json.text);
    if (read.kind !== 'file') throw new Error('it does not read back');
    const kept = (await versionsOf(idHere())).at(-1)?.document as unknown as Formula;
    expect(read.file.formulas).toEqual([kept]);
    expect(read.file.moulds.map(({ id }) => id)).toEqual(kept.moulds.map(({ mould }) => mould));
    expect(read.file.lots.map(({ id }) => id).toSorted()).toEqual(
      kept.entries.flatMap(({ lot }) => (lot === null ? [] : [lot])).toSorted(),
    );
    const csv = await saved('Save the lines (CSV)');
    expect(csv.name).toBe('alder-oat.csv');
    const lines = csv.text.trim().split('\r\n');
    expect(lines[0]).toContain('line,material,lot,phase,vessel,target g');
    const targets = await page
      .locator('tr[data-line]')
      .evaluateAll((rows) => rows.map((row) => [row.dataset['line'], row.dataset['target']]));
    expect(lines.slice(1, -1).map((line) => line.split(',')[0])).toEqual(targets.map(([id]) => id));
    for (const [at, [, target]] of targets.entries()) expect(lines[at + 1]).toContain(`,${Number(target) / 1000},`);
  });

  it('while one share is typed the others make room; a locked one stays, and digits on the way leave no trace', async () => {
    const oils = section(page, 'Oils');
    const amounts = (): Promise<readonly string[]> =>
      oils.getByRole('textbox').evaluateAll((fields) => fields.map((field) => (field as unknown as { value: string }).value));
    expect(await amounts()).toEqual(['28', '12', '40', '20']);
    const coconut = oils.getByRole('textbox', { name: 'How much Coconut oil' });
    await coconut.fill('30');
    expect(await amounts()).toEqual(['30', '12', '40', '20']);
    await page.getByRole('button', { name: 'Undo' }).click();
    await oils.getByRole('button', { name: 'more: Olive oil' }).click();
    await oils.getByLabel('When others change, or the size').selectOption('share');
    await oils.getByRole('button', { name: 'more: Olive oil' }).click();
    await oils.getByLabel(/the others make room/).check();
    await coconut.focus();
    await page.keyboard.press('Control+a');
    await page.keyboard.type('36');
    expect(await amounts()).toEqual(['36', '9', '40', '15']);
    await page.waitForSelector('[data-answer="plan"]');
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await amounts()).toEqual(['28', '12', '40', '20']);
    await page.getByRole('button', { name: 'Throw away what is not kept' }).click();
    await page.getByText('Kept', { exact: true }).waitFor();
  });

  it('all oils, what each takes, tolerances, moulds and totals open to their workings', async () => {
    const opens = async (name: string, of: Locator, contains: string): Promise<void> => {
      await of.click();
      const slip = page.locator('[id^="workings-"]');
      await slip.waitFor();
      expect(await slip.innerText(), name).toContain(contains);
      await of.click();
      await slip.waitFor({ state: 'detached' });
    };
    const all = section(page, 'Oils').locator('tfoot button');
    await opens('all oils', all.nth(0), 'Σ weight of each oil');
    await opens('what all take', all.nth(1), 'D = Σ mass × SV');
    await opens(
      'takes',
      section(page, 'Oils').locator('tr[data-entry]').first().locator('td').nth(3).getByRole('button'),
      '÷ M(KOH) × M(NaOH)',
    );
    const scent = section(page, 'Fragrance').locator('tr[data-entry]').first().getByRole('button');
    await opens('share', scent.nth(2), 'weight ÷ batter');
    await opens('tolerance', scent.nth(3), 'the form of USP <41>');
    const mould = section(page, 'Moulds').locator('tr[data-mould]').first().locator('td button');
    await opens('brim', mould.nth(0), '250 × 64 × 95 mm');
    await opens('batter in it', mould.nth(1), 'its part of what is poured × density');
    await opens('left above', mould.nth(3), '(1 − full) × depth');
    await opens('density', section(page, 'Moulds').getByRole('button', { name: /g\/mL$/ }), 'batter ÷ its volume');
    await opens('the rule', section(page, 'Moulds').getByRole('button', { name: /^967/ }), 'common practice');
    const lye = section(page, 'Lye');
    for (const [row, words] of [
      ['Lye concentration', 'purity of Sodium hydroxide'],
      ['Hottest the lye can get', 'heat of solution of NaOH'],
      ['Iodine value', 'iodine value of Coconut oil'],
      ['Soap', 'batter − water'],
      ['Glycerol', '÷ 3 × M(glycerol)'],
      ['Fat left', 'finds no alkali'],
      ['Water in the batter', 'water that neutralising forms'],
    ] as const)
      await opens(row, lye.getByRole('row', { name: new RegExp(`^${row}`) }).getByRole('button'), words);
    await opens('all together', page.locator('table[data-plan] tfoot button'), 'Σ weight of every line');
    // How sure it is stands one tap deeper, with k.
    expect(await lye.innerText()).not.toContain('in 95 of 100');
    await lye.getByRole('button', { name: '5.0 %' }).click();
    expect(await page.locator('#workings-superfat').innerText()).toMatch(/in 95 of 100 \(k = 2\)[\s\S]*± [\d.]+ % \(k = 2\)/);
    await isSound(page);
    await lye.getByRole('button', { name: '5.0 %' }).click();
  });

  it('a mould known by its water is drawn by the cube it would be', async () => {
    await section(page, 'Moulds').getByLabel('mould', { exact: true }).selectOption('leaf of silicone');
    const drawing = page.locator('svg[data-side="cube"]');
    await drawing.waitFor();
    // 612 g of water in six cavities: 102 cm³ each, 46.7 mm a side; three of them with 8 mm between.
    const width = Number(await drawing.getAttribute('width'));
    expect(width).toBeCloseTo(3 * 10 * Math.cbrt(102.1) + 16, 0);
    await page.getByText('a cube that holds as much').waitFor();
    await page.getByRole('button', { name: 'Throw away what is not kept' }).click();
    await drawing.waitFor({ state: 'detached' });
  });

  it('a paper carries its file; a day still to come loses nothing of the sheet', async () => {
    const papers = section(page, 'Papers it has to keep to');
    await papers.getByRole('button', { name: 'Add a safety assessment' }).click();
    await papers.getByLabel('Number').fill('SA 9');
    await page.getByText(/^version \d+, changed, not kept$/).waitFor();
    await page.reload();
    await page.waitForSelector('[data-answer]:not([data-answer="none"])');
    expect(await papers.getByLabel('Number').inputValue()).toBe('SA 9');
    await papers.getByLabel('Of the day, such as 2026-02-03').fill('2026-02-03');
    const bytes = Buffer.from('what it allows');
    await papers.getByLabel('The paper itself').setInputFiles({ name: 'assessment.txt', mimeType: 'text/plain', buffer: bytes });
    const link = papers.getByRole('link', { name: 'Save the paper as it is kept here' });
    await link.waitFor();
    await page.getByRole('button', { name: 'Keep it as version 2' }).click();
    await page.getByText('version 2', { exact: true }).first().waitFor();
    const kept = (await versionsOf(idHere())).at(-1)?.document as unknown as Formula;
    expect(kept.references[0]?.file).toMatch(/^[0-9a-f]{64}$/);
    const back = await fetch(url((await link.getAttribute('href')) ?? ''));
    expect(Buffer.from(await back.arrayBuffer())).toEqual(bytes);
    await isSound(page);
  });

  it('an earlier version is brought back as the next one, what changed is said in words, and nothing is lost', async () => {
    const versions = section(page, 'Versions');
    await versions.getByRole('row', { name: /assessments and notifications/ }).waitFor();
    expect(await versions.innerText()).toContain('Safety assessment SA 9 of 2026-02-03, with the paper');
    await page.getByLabel('In a few words').fill('typed since');
    await versions.getByRole('button', { name: 'Bring back version 1' }).click();
    await page.getByText('version 3', { exact: true }).first().waitFor();
    const all = await versionsOf(idHere());
    expect(all.map(({ document }) => (document as unknown as Formula).references.length)).toEqual([0, 1, 0]);
    expect(all.at(-1)?.note).toBe('as version 1 was');
    // What was typed and not kept is one step back.
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await page.getByLabel('In a few words').inputValue()).toBe('typed since');
    await page.getByRole('button', { name: 'Redo' }).click();
  });

  it('what another screen changes of the workshop arrives, and is said', async () => {
    const lot: Lot = { id: 'lot-new', mark: 'CO 26-99', material: 'coconut', certificate: null, files: [] };
    const option = section(page, 'Oils').getByLabel('Lot of Coconut oil').locator('option', { hasText: 'CO 26-99' });
    expect(await option.count()).toBe(0);
    await put('lot', lot);
    await expect.poll(() => option.count(), { timeout: 15_000 }).toBe(1);
    await page.getByText('Something of the workshop was changed on another screen').waitFor();
  });

  it('is put away, stands in the list of what is, and is taken out again', async () => {
    const id = idHere();
    await section(page, 'Versions').getByRole('button', { name: 'Put this formula away' }).click();
    await page.waitForURL(/\/formulas$/);
    await page.getByRole('link', { name: 'Meadowsweet' }).waitFor();
    expect(await page.getByRole('link', { name: 'Alder & oat' }).count()).toBe(0);
    await page.getByRole('button', { name: /put away$/ }).click();
    await page.locator(`tr[data-away="${id}"]`).getByRole('button').click();
    await page.getByRole('link', { name: 'Alder & oat' }).waitFor();
    expect((await versionsOf(id)).map(({ document }) => document === null)).toEqual([false, false, false, true, false]);
    await isSound(page);
  });

  it('a card is copied as it stands on paper: fractions, ounces that are asked about, spoons; what it really gives', async () => {
    await page.goto(url('/formulas'));
    await page.getByRole('button', { name: 'New formula' }).click();
    await page.getByLabel('Name', { exact: true }).fill('From a card');
    const add = async (part: string, act: string, material: string, amount: string, lot?: string): Promise<Locator> => {
      const part_ = section(page, part);
      await part_.getByRole('button', { name: act }).click();
      const row = part_.locator('tr[data-entry]').last();
      await row.getByRole('combobox').first().selectOption({ label: material });
      if (lot !== undefined) await row.getByRole('combobox', { name: `Lot of ${material}` }).selectOption({ label: lot });
      await row.getByRole('textbox').fill(amount);
      return row;
    };
    await add('Oils', 'Add an oil', 'Coconut oil', '1 1/2 lb');
    const olive = await add('Oils', 'Add an oil', 'Olive oil', '40 oz');
    await olive.getByText('Which of these is meant?').waitFor();
    const card = section(page, 'As it stands on the card');
    await add('Hydroxide', 'Add a hydroxide', 'Sodium hydroxide', '9 1/4 oz', 'SH 26-06, 2026-02-12');
    await card.getByText('What it really gives is not known').waitFor();
    await olive.getByRole('button', { name: '40 oz, weight' }).click();
    await add('Liquids', 'Add a liquid', 'Distilled water', '20 oz');
    await section(page, 'Liquids').getByRole('button', { name: '20 oz, weight' }).click();
    await add('Everything else', 'Add something', 'Ground oats', '3 tbsp');
    // 24 oz at 257 and 40 oz at 190 mg KOH/g take 9.80 oz of NaOH; 9.25 oz of 99 % leave 6.5 %.
    await card.getByText(/really give a superfat of 6\.\d %/).waitFor();
    await card.getByText('“3 tbsp” is kept as written and left out of every figure.').waitFor();
    await card.getByText(/Its lye is 3\d\.\d % hydroxide/).waitFor();
    await page.getByLabel('Superfat, %').fill('8');
    await card.getByText('The card says 8.0 %.').waitFor();
    // Its own lye by the spoon says nothing.
    await section(page, 'Hydroxide').getByRole('textbox').fill('1 tbsp');
    await card.getByText('What it really gives is not known').waitFor();
    await section(page, 'Hydroxide').getByRole('textbox').fill('9.25 oz');
    await card.getByText(/really give a superfat of 6\.\d %/).waitFor();
    await isSound(page);
    // Unfinished it stays on this screen.
    await page.reload();
    await card.getByText(/really give a superfat of 6\.\d %/).waitFor();
    expect(await section(page, 'Everything else').getByRole('textbox').inputValue()).toBe('3 tbsp');
  });

  it('unreadable texts stay in their fields and say what is wrong with them', async () => {
    const coconut = section(page, 'Oils').getByRole('textbox', { name: 'How much Coconut oil' });
    await coconut.fill('1 pint');
    await section(page, 'Oils').getByText('This unit is not known.').waitFor();
    await page.getByLabel('The batch is as large as').selectOption('bars');
    await page.getByLabel('Bars', { exact: true }).fill('12.5');
    await page.getByText('A whole number belongs here.').waitFor();
    await page.getByLabel('Bars', { exact: true }).fill('a dozen');
    await page.getByText('“a dozen” is no number.').waitFor();
    expect(await page.getByLabel('Bars', { exact: true }).inputValue()).toBe('a dozen');
    await page.getByLabel('Superfat, %').fill('5,5');
    // Read as five and a half; what stands against it is the hydroxide's own weight.
    await expect
      .poll(() => page.locator('#superfat-error').innerText())
      .toBe('It is wished here and fixed by weights as well. Take one away.');
  });
});
