import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newEntry } from '#lib/work/formula/index';
import type { Formula } from '#lib/work/formula/index';
import { FIRST_FORMULA, FIRST_PREPARED, FIRST_VESSELS, keep, lotOf, SODA_LOT } from '#tests/support/first-formula';
import { afterQuiet } from './support/on-page';
import { HELD_MS, startBatch } from './support/pedal';
import { wholeBench } from './support/whole-bench';
import type { WholeBench } from './support/whole-bench';

/** Four oils, the last of them still to come when olive is over; superfat half a point either way, lye as it comes. */
const FORMULA: Formula = {
  ...FIRST_FORMULA,
  entries: [
    ...FIRST_FORMULA.entries.filter(({ id }) => id !== 'olive'),
    newEntry('olive', 'fat', { material: 'olive', amount: { kind: 'share', of: 'fats', percent: '35' } }),
    newEntry('sunflower', 'fat', { material: 'sunflower', amount: { kind: 'rest' } }),
  ],
  limits: { superfat: { low: '5.5', high: '6.5' }, lye: { low: '30', high: '36' } },
};
const MATERIALS = ['tallow', 'coconut', 'olive', 'sunflower', 'water'];

/** Made ready with a lot for every line, so that nothing but hydroxide waits for a person. */
const prepare = async (port: number): Promise<void> => {
  for (const vessel of FIRST_VESSELS) await keep(port, 'vessel', vessel);
  for (const lot of [SODA_LOT, ...MATERIALS.map((material) => lotOf(material, `${material} 1`))]) await keep(port, 'lot', lot);
  await keep(port, 'formula', FORMULA);
  const lots = { soda: SODA_LOT.id, ...Object.fromEntries(MATERIALS.map((material) => [material, `${material}-1`])) };
  await keep(port, 'prepared', { id: FIRST_PREPARED, formula: { id: FORMULA.id, version: 1 }, size: null, lots, note: '' } as {
    id: string;
  });
};

const OVER = 'olive';
const OVER_BY_G = 12;

/** Over-poured by hands, answered by a pedal, finished and read: no screen is touched but to close the batch. */
describe('an over-pour of 12 g', () => {
  let bench: WholeBench;

  beforeAll(async () => {
    bench = await wholeBench(prepare);
  }, 120_000);
  afterAll(() => bench?.close());

  const lineOf = (id: string) => {
    const line = bench.batch().lines[id as never];
    if (line === undefined) throw new Error(`no line ${id}`);
    return line;
  };

  /** Until the record has it: a card may go for a moment while a late reading comes. */
  const chooseUntil = async (code: string, recorded: () => boolean): Promise<void> => {
    while (!recorded()) {
      await bench.watcher.frame(({ cue }) => recorded() || cue.cards.some((card) => card.code === code && card.enabled));
      if (!recorded()) await bench.pedal.choose(code);
    }
  };

  it('is answered with the least change by a held pedal, led to the end and told on Review', { timeout: 400_000 }, async () => {
    const { page, pedal, watcher, scales, probes } = bench;
    await startBatch(page, pedal, FIRST_PREPARED);

    let poured = false;
    await bench.weighUntil(['over'], async () => {
      const { phase, line, left } = bench.cue();
      if (poured || phase !== 'ready' || line !== OVER) return false;
      poured = true;
      await scales.main.tell({ act: 'pour', grams: (left ?? 0) / 1000 + OVER_BY_G });
      return true;
    });

    // The screen changes its shape, says by how much and what it means, and offers at most five ways out, stopping among them.
    await page.waitForSelector('main[data-shape="red"] [data-band]');
    const { cards } = (await watcher.frame(({ cue }) => cue.cards.some(({ remedy }) => remedy !== undefined))).cue;
    expect(cards.length).toBeLessThanOrEqual(5);
    expect(cards.at(-1)?.code).toBe('stop');
    expect(cards.every(({ hold, enabled }) => hold || !enabled)).toBe(true);
    const [first] = cards;
    expect(first?.remedy?.recommended).toBe('least-change');
    const meant = cards.find(({ code }) => code === 'carry-on')?.remedy?.superfat;
    expect(await page.locator('main').innerText()).toContain(
      `Superfat would be ${((meant?.value ?? NaN) / 10_000).toFixed(1)} %, ±${((meant?.half ?? NaN) / 10_000).toFixed(1)}`,
    );
    expect(await page.locator('[data-card]').first().getAttribute('data-card')).toBe(first?.code);
    // Nothing is in the record before a person has answered, and a short press takes nothing.
    const before = bench.batch().version;
    await pedal.stepTo(first?.code ?? '');
    expect(bench.batch().version).toBe(before);

    const moved = first?.remedy?.lines[0];
    expect(moved).toBeDefined();
    await chooseUntil(first?.code ?? '', () => bench.batch().lines[OVER as never] !== undefined && lineOf(OVER).status === 'closed');
    expect(bench.batch().over).toBeNull();
    expect(lineOf(moved?.line ?? '').plan.target).toBe(moved?.to);
    expect(lineOf(moved?.line ?? '').planned.target).toBe(moved?.from);

    await bench.weighUntil(['temperatures', 'joining']);
    const changed = lineOf(moved?.line ?? '');
    expect(Math.abs(changed.actual - (moved?.to ?? NaN))).toBeLessThanOrEqual(changed.plan.tolerance);

    await probes.lye.tell({ act: 'make-lye' });
    await chooseUntil('dissolve', () => Object.values(bench.batch().vessels).some(({ state }) => state === 'dissolved'));
    await probes.lye.tell({ act: 'cool' });
    await probes.lye.tell({ act: 'hurry', times: 30 });
    await watcher.frame(({ cue }) => cue.phase === 'joining');
    await probes.lye.tell({ act: 'hurry', times: 1 });
    await chooseUntil('join', () => bench.batch().joined !== null);
    await chooseUntil('trace-medium', () => bench.batch().trace.length > 0);
    await watcher.frame(({ cue }) => cue.phase === 'pouring-moulds');
    for (const [name, delay] of [
      ['More', 0],
      ['Close the batch', 0],
      ['Close the batch', HELD_MS],
    ] as const) {
      await afterQuiet(page);
      await page.getByRole('button', { name }).click({ delay });
    }
    await page.waitForSelector('[data-card="review"]');
    await pedal.take('review');

    const story = await page.waitForSelector('[data-story]').then(() => page.locator('[data-story] > li').all());
    const told = await Promise.all(story.map(async (one) => [await one.getAttribute('data-code'), await one.innerText()] as const));
    const codes = told.map(([code]) => code);
    // What happened, what was chosen of what and why, and what became of the plan: in this order.
    const order = ['over-pour-red', 'remedy-chosen', 'replanned', 'joined', 'closed'].map((code) => codes.indexOf(code));
    expect(order.every((at, n) => at >= 0 && (n === 0 || at > (order[n - 1] ?? -1)))).toBe(true);
    const chosen = told.find(([code]) => code === 'remedy-chosen')?.[1] ?? '';
    expect(chosen).toMatch(/Way out chosen: Use \S+ g (less|more) /);
    expect(chosen).toMatch(/recommended: the least change that keeps every limit/);
    expect(chosen).toMatch(/Also offered: .*Carry on \(superfat .*Stop/);
  });
});
