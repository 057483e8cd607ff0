import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import type { LiveFrame } from '#lib/protocol/live';
import type { BatchReview } from '#lib/work/batch/index';
import { startDevice } from '#tests/support/device';
import type { DeviceProcess } from '#tests/support/device';
import { freePort, screenAt, serverProcess, tempFolder } from '#tests/support/server-rig';
import type { ScreenRig, ServerProcess } from '#tests/support/server-rig';
import { carriedBy, moveHands, pedal } from './support/maker';
import type { Scales } from './support/maker';
import { launch } from './support/theatre';

/** The line to over-pour, the line to pull the plug in, and the line to kill the server in. */
const OVER = 'olive';
const UNPLUG = 'sunflower';
const KILL = 'water';
/** Frames after which the maker looks again although nothing changed: about two seconds. */
const LOOKS = 20;
const DIVISION = { main: 100, fine: 10 } as const;

/**
 * A whole batch by hands and one pedal: simulated scales and probes on real ttys in frame shapes, the production server and pages, a real
 * browser. The page is steered by its one key only; the socket beside it just watches what the bench asks for.
 */
describe('a batch weighed hands-free', () => {
  const folder = tempFolder();
  let browser: Browser;
  let page: Page;
  let server: ServerProcess;
  let watcher: ScreenRig;
  let scales: Scales;
  let probes: Readonly<Record<'lye' | 'oils', DeviceProcess>>;
  let port: number;
  let flags: readonly string[];
  /** What the pan truly took for each line, mg: carried at the end less carried at the zero. */
  const truth = new Map<string, number>();

  beforeAll(async () => {
    const [main, fine, lye, oils] = await Promise.all([
      startDevice('--shape', 'header-comma', '--division', '0.1', '--capacity', '5000', '--seed', '7'),
      startDevice('--shape', 'right-query', '--division', '0.01', '--capacity', '300', '--seed', '8'),
      startDevice('--shape', 'probe-line', '--channel', 'lye', '--seed', '9'),
      startDevice('--shape', 'probe-line', '--channel', 'oils', '--seed', '10'),
    ]);
    scales = { main, fine };
    probes = { lye, oils };
    port = await freePort();
    flags = [
      '--port',
      String(port),
      '--data',
      folder.path,
      '--scale',
      main.path,
      '--scale',
      fine.path,
      '--probe',
      `lye=${lye.path}`,
      '--probe',
      `oils=${oils.path}`,
    ];
    server = await serverProcess(flags);
    browser = await launch();
    page = await browser.newPage({ viewport: { width: 1280, height: 800 }, locale: 'en-GB' });
    await page.goto(`http://localhost:${port}/bench`);
    await page.waitForSelector('main[data-phase="idle"]');
    watcher = screenAt(port);
    await watcher.greeted();
  });

  afterAll(async () => {
    watcher?.close();
    await browser?.close();
    if (server?.child.exitCode === null) await server.end('SIGTERM');
    await Promise.all([scales?.main, scales?.fine, probes?.lye, probes?.oils].map((device) => device?.end()));
    folder.remove();
  });

  const cue = (): LiveFrame['cue'] => {
    const newest = watcher.frames.at(-1);
    if (newest === undefined) throw new Error('no frame yet');
    return newest.cue;
  };
  const phaseIs = (...phases: readonly string[]) => watcher.frame(({ cue: { phase } }) => phases.includes(phase));
  /** Steps through the cards to this one and holds. A press too soon after the cards came up is swallowed, so it is tried again. */
  const chosen = async (code: string): Promise<void> => {
    const { press, hold } = pedal(page);
    const isOn = (): boolean => cue().cards[cue().selected]?.code === code;
    while (!isOn()) {
      const from = cue().selected;
      let looks = 0;
      const moved = watcher.frame((frame) => frame.cue.selected !== from || (looks += 1) > 8);
      await press();
      await moved;
    }
    await hold();
  };

  it('is planned, poured, over-poured, unplugged, killed, joined and reviewed as it truly was', { timeout: 240_000 }, async () => {
    const { hold } = pedal(page);
    await startBatch(page, 'Meadowsweet');
    const disturbed = new Set<string>();
    const opened = new Map<string, number>();
    let lastPhase = '';

    for (;;) {
      const seen = { cue: cue(), batch: watcher.batch() };
      const { phase, line } = seen.cue;
      if (['temperatures', 'joining', 'trace', 'done'].includes(phase)) break;
      const role = line === null ? null : (seen.batch?.lines[line]?.plan.scale ?? null);
      if (phase === 'ready' && line !== null && role !== null && !opened.has(line)) opened.set(line, await carriedBy(scales[role]));
      let looks = 0;
      const changed = watcher.frame((frame) => frame.cue.phase !== phase || frame.cue.line !== line || (looks += 1) > LOOKS);
      if (phase === 'pouring' && lastPhase !== 'pouring') {
        // The hands are still: whether the stream has ended, the next looks will show.
        lastPhase = phase;
        await changed;
        continue;
      }
      lastPhase = phase;
      if (phase === 'ready' && line === OVER && !disturbed.has(OVER)) {
        disturbed.add(OVER);
        await scales.main.tell({ act: 'pour', grams: (seen.cue.left ?? 0) / 1000 + 12 });
      } else if (phase === 'ready' && line === UNPLUG && !disturbed.has(UNPLUG)) {
        disturbed.add(UNPLUG);
        await pullThePlug(seen.cue.left ?? 0);
      } else if (phase === 'ready' && line === KILL && !disturbed.has(KILL)) {
        disturbed.add(KILL);
        await killTheServer();
      } else if (phase === 'over') await chosen('carry-on');
      else if (phase === 'gate' || phase === 'hold') await hold();
      else if (phase === 'ask') await pedal(page).press();
      else if (phase === 'resume') await chosen('resume-as-recorded');
      else await moveHands(scales, seen);
      const closed = watcher.batch();
      for (const [id, start] of opened) {
        const state = closed?.lines[id as keyof typeof closed.lines];
        if (truth.has(id) || state === undefined || state.status !== 'closed') continue;
        truth.set(id, (await carriedBy(scales[state.plan.scale])) - start);
      }
      await changed;
    }
    expect([...truth.keys()]).toHaveLength(6);

    // Lye is made: cold liquid confirmed, granules into it, and both vessels into the window.
    await phaseIs('temperatures', 'joining');
    await chosen('dissolve');
    await probes.lye.tell({ act: 'make-lye' });
    await watcher.frame((frame) => frame.probes.some(({ use, value }) => use === 'lye' && value !== null && value > 60_000));
    await probes.lye.tell({ act: 'hurry', times: 30 });
    await watcher.frame((frame) => frame.probes.some(({ use, value }) => use === 'lye' && value !== null && value < 47_000));
    await probes.lye.tell({ act: 'hurry', times: 1 });
    await phaseIs('joining');
    await chosen('join');
    await phaseIs('trace');
    await chosen('trace-medium');
    await page.keyboard.press('Escape');

    const batch = watcher.batch();
    expect(batch?.status).toBe('joined');
    const review = (await (await fetch(`http://localhost:${port}/api/batches/${batch?.id}`)).json()) as BatchReview;
    for (const { line, actual, contributions } of review.lines) {
      const plan = batch?.lines[line]?.plan;
      expect(plan).toBeDefined();
      expect(Math.abs(actual - (truth.get(line) ?? NaN)), line).toBeLessThanOrEqual(DIVISION[plan?.scale ?? 'main']);
      if (plan?.material.class === 'hydroxide') expect(contributions.map(({ how }) => how)).toEqual(['held']);
    }
    expect(review.lines.find(({ line }) => line === OVER)?.outcome).toBe('over');
    const kinds = review.story.map((event) => event.code);
    for (const kind of ['over-carried-on', 'instrument-lost', 'resumed', 'joined']) expect(kinds).toContain(kind);
    expect(review.summary.realm).toBe('test');
  });

  /** The plug comes out half way, the screen blanks, the plug goes back, and a person says go on. */
  const pullThePlug = async (left: number): Promise<void> => {
    const pouring = scales.main.tell({ act: 'pour', grams: left / 2000 });
    await watcher.frame((frame) => frame.cue.phase === 'pouring' && (frame.cue.left ?? left) < 0.8 * left);
    await scales.main.tell({ act: 'unplug' });
    await page.waitForSelector('main[data-phase="no-weight"]');
    expect(await page.locator('[data-figure]').count()).toBe(0);
    await pouring;
    await scales.main.tell({ act: 'plug' });
    await watcher.frame(({ cue: { cards } }) => cards.some(({ code }) => code === 'poured-meanwhile'));
    await chosen('poured-meanwhile');
  };

  /** No warning, no goodbye. The page finds the new server by itself; a person says what is in the vessel. */
  const killTheServer = async (): Promise<void> => {
    const before = watcher.hellos.at(-1)?.boot;
    await server.end('SIGKILL');
    await page.waitForSelector('main[data-shape="lost"]');
    server = await serverProcess(flags);
    await watcher.greeted(before);
    await phaseIs('resume');
    await page.waitForSelector('main[data-phase="resume"]');
  };
});

/** Chooses a plan and the one lot of each material, with the pedal alone. */
const startBatch = async (page: Page, name: string): Promise<void> => {
  const { press, hold } = pedal(page);
  const current = page.locator('[data-card][aria-current], [data-card][data-current]');
  const reads = async (): Promise<boolean> =>
    ((await current.count()) > 0 ? ((await current.first().textContent()) ?? '') : '').includes(name);
  while (!(await reads())) await press();
  await hold();
  while ((await page.locator('main').getAttribute('data-phase')) === 'idle') {
    await press();
    await hold();
  }
};
