import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import type { LiveFrame, LiveProbe } from '#lib/protocol/live';
import type { BatchState, BatchReview } from '#lib/work/batch/index';
import { startDevice } from '#tests/support/device';
import type { DeviceProcess } from '#tests/support/device';
import { freePort, screenAt, serverProcess, tempFolder } from '#tests/support/server-rig';
import type { ScreenRig, ServerProcess } from '#tests/support/server-rig';
import { carriedBy, moveHands } from './support/maker';
import type { Scales } from './support/maker';
import { pedalOf, startBatch } from './support/pedal';
import type { Pedal } from './support/pedal';
import { launch } from './support/theatre';

/** The line to over-pour, the line to pull the plug in, and the line to kill the server in. */
const OVER = 'olive';
const UNPLUG = 'sunflower';
const KILL = 'water';
/** Frames after which the maker looks again although nothing changed: about a second. */
const LOOKS = 10;
const DIVISION = { main: 100, fine: 10 } as const;

/**
 * A whole batch by hands and one pedal: simulated scales and probes on real ttys in frame shapes, the production server and pages, a real
 * browser. The page is steered by its one key only; the socket beside it just watches what the bench asks for.
 */
describe('a batch weighed hands-free', () => {
  const folder = tempFolder();
  let browser: Browser;
  let page: Page;
  let pedal: Pedal;
  let server: ServerProcess;
  let watcher: ScreenRig;
  let scales: Scales;
  let probes: Readonly<Record<'lye' | 'oils', DeviceProcess>>;
  let port: number;
  let flags: readonly string[];

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
    const instruments = ['--scale', main.path, '--scale', fine.path, '--probe', `lye=${lye.path}`, '--probe', `oils=${oils.path}`];
    flags = ['--port', String(port), '--data', folder.path, ...instruments];
    server = await serverProcess(flags);
    browser = await launch();
    page = await browser.newPage({ viewport: { width: 1280, height: 800 }, locale: 'en-GB' });
    await page.goto(`http://localhost:${port}/bench`);
    await page.waitForSelector('main[data-phase="idle"]');
    watcher = screenAt(port);
    await watcher.greeted();
    pedal = pedalOf(page, watcher);
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
  const batch = (): BatchState => {
    const state = watcher.batch();
    if (state === null) throw new Error('no batch');
    return state;
  };
  const phaseIs = (...phases: readonly string[]) => watcher.frame(({ cue: { phase } }) => phases.includes(phase));
  const lyeIs = (fits: (value: number) => boolean) =>
    watcher.frame(({ probes }) => probes.some(({ use, value }: LiveProbe) => use === 'lye' && value !== null && fits(value)));

  it('is planned, poured, over-poured, unplugged, killed, joined and reviewed as it truly was', { timeout: 600_000 }, async () => {
    await startBatch(page, pedal, 'meadowsweet');
    const truth = await weighAll();
    expect([...truth.keys()].toSorted()).toEqual([...batch().order].toSorted());
    await makeLye();
    await joinOnceMet();
    const review = await closed();

    for (const { line, actual, contributions } of review.lines) {
      const { scale, material } = lineOf(line).plan;
      expect(Math.abs(actual - (truth.get(line) ?? NaN)), line).toBeLessThanOrEqual(DIVISION[scale]);
      if (material.class === 'hydroxide') expect(contributions.map(({ how }) => how)).toEqual(['held']);
    }
    expect(review.lines.map(({ line, outcome }) => [line, outcome])).toContainEqual([OVER, 'over']);
    const kinds = review.story.map((event) => event.code);
    for (const kind of ['over-carried-on', 'instrument-lost', 'resumed', 'joined', 'trace', 'closed']) expect(kinds).toContain(kind);
    expect(review.summary.realm).toBe('test');

    const shown = await reviewPage();
    expect([...shown.keys()]).toEqual(review.lines.map(({ line }) => line));
    for (const [line, grams] of shown)
      expect(Math.abs(grams * 1000 - (truth.get(line) ?? NaN)), `${line} on the page`).toBeLessThanOrEqual(
        DIVISION[lineOf(line).plan.scale],
      );
  });

  const offered = (code: string): boolean => cue().cards.some((card) => card.code === code && card.enabled);
  /** A card may go for a moment while a late reading comes; it is chosen until the record has it. */
  const chooseUntil = async (code: string, recorded: () => boolean): Promise<void> => {
    while (!recorded()) {
      await watcher.frame(() => recorded() || offered(code));
      if (!recorded()) await pedal.choose(code);
    }
  };
  const lineOf = (id: string) => {
    const line = batch().lines[id as keyof BatchState['lines']];
    if (line === undefined) throw new Error(`no line ${id}`);
    return line;
  };

  /** Every line, disturbed three times. Returns what the pan truly took for each, mg: carried at the end less carried at the zero. */
  const weighAll = async (): Promise<ReadonlyMap<string, number>> => {
    const truth = new Map<string, number>();
    const opened = new Map<string, number>();
    const disturb = new Map<string, (left: number) => Promise<void>>([
      [OVER, overPour],
      [UNPLUG, pullThePlug],
      [KILL, killTheServer],
    ]);
    let lastPhase = '';
    for (;;) {
      const { phase, line, left } = cue();
      // Before the hands do anything else: what is poured next belongs to the next line.
      for (const [id, start] of opened)
        if (!truth.has(id) && lineOf(id).status === 'closed') truth.set(id, (await carriedBy(scales[lineOf(id).plan.scale])) - start);
      if (['temperatures', 'joining'].includes(phase)) return truth;
      if (phase === 'ready' && line !== null && !opened.has(line)) opened.set(line, await carriedBy(scales[lineOf(line).plan.scale]));
      const still = looks(phase, line);
      // When a pour begins the hands are still: whether the stream has ended, the next looks will show.
      const starting = phase === 'pouring' && lastPhase !== 'pouring';
      lastPhase = phase;
      if (!starting) {
        const disturbance = phase === 'ready' && line !== null ? disturb.get(line) : undefined;
        if (disturbance !== undefined && line !== null) {
          disturb.delete(line);
          await disturbance(left ?? 0);
        } else await turn();
      }
      await still;
    }
  };
  const looks = (phase: string, line: string | null): Promise<LiveFrame> => {
    let count = 0;
    return watcher.frame((frame) => frame.cue.phase !== phase || frame.cue.line !== line || (count += 1) > LOOKS);
  };
  const turn = async (): Promise<void> => {
    const { phase } = cue();
    if (phase === 'over') await pedal.choose('carry-on');
    else if (phase === 'gate' || phase === 'hold') await pedal.confirm();
    else if (phase === 'ask') await pedal.press();
    else if (offered('poured-meanwhile')) await pedal.choose('poured-meanwhile');
    else if (phase === 'resume') await pedal.choose('resume-poured-more');
    else await moveHands(scales, { cue: cue(), batch: batch() });
  };

  const overPour = async (left: number): Promise<void> => {
    await scales.main.tell({ act: 'pour', grams: left / 1000 + 12 });
    await phaseIs('over');
    await page.waitForSelector('main[data-shape="red"]');
  };

  /** Half of what is left, and what happens meanwhile. */
  const halfPoured = async (left: number): Promise<Promise<unknown>[]> => {
    const pouring = scales.main.tell({ act: 'pour', grams: left / 2000 });
    await watcher.frame((frame) => frame.cue.phase === 'pouring' && (frame.cue.left ?? left) < 0.8 * left);
    return [pouring];
  };

  /** The plug comes out half way, the screen blanks, the plug goes back, and a person says go on. */
  const pullThePlug = async (left: number): Promise<void> => {
    const pouring = await halfPoured(left);
    await scales.main.tell({ act: 'unplug' });
    await page.waitForSelector('main[data-phase="no-weight"]');
    expect(await page.locator('[data-figure]').count()).toBe(0);
    await Promise.all(pouring);
    await scales.main.tell({ act: 'plug' });
    await watcher.frame(() => offered('poured-meanwhile'));
  };

  /** No warning, no goodbye, half way. The page finds the new server by itself; a person says what is in the vessel. */
  const killTheServer = async (left: number): Promise<void> => {
    const pouring = await halfPoured(left);
    const before = watcher.hellos.at(-1)?.boot;
    await server.end('SIGKILL');
    await page.waitForSelector('main[data-shape="lost"]');
    await Promise.all(pouring);
    server = await serverProcess(flags);
    await watcher.greeted(before);
    await phaseIs('resume');
    await page.waitForSelector('main[data-phase="resume"]');
    expect(batch().open).toBe(KILL);
  };

  /** Granules into cold water: hotter than the oils by far within a minute, and joining is held however firmly it is asked for. */
  const makeLye = async (): Promise<void> => {
    await probes.lye.tell({ act: 'make-lye' });
    await chooseUntil('dissolve', () => Object.values(batch().vessels).some(({ state }) => state === 'dissolved'));
    await lyeIs((value) => value > batch().plan.joining.window.high);
    await pedal.stepTo('join');
    await pedal.hold();
    await page.waitForSelector('[data-card="join"][aria-disabled]');
    expect(batch().joined).toBeNull();
    expect(cue().joining?.holds.map(({ reason }) => reason)).toContain('lye-too-hot');
  };

  const joinOnceMet = async (): Promise<void> => {
    await probes.lye.tell({ act: 'cool' });
    await probes.lye.tell({ act: 'hurry', times: 30 });
    await phaseIs('joining');
    await probes.lye.tell({ act: 'hurry', times: 1 });
    await chooseUntil('join', () => batch().joined !== null);
    await page.waitForSelector('output[data-say="trace"]', { state: 'attached' });
    await chooseUntil('trace-medium', () => batch().trace.length > 0);
    await phaseIs('pouring-moulds');
  };

  /** Closing is asked about and held, by the same pedal; its review as the program gives it out. */
  const closed = async (): Promise<BatchReview> => {
    const { id } = batch();
    while (batch().status !== 'closed') {
      if (cue().goOn?.code === 'close-batch') await pedal.press();
      else if (cue().portion?.at === 'strange') await scales.main.tell({ act: 'lift' });
      let looks = 0;
      await watcher.frame(() => offered('close-batch') || (looks += 1) > LOOKS);
      if (offered('close-batch')) await pedal.choose('close-batch');
    }
    await page.waitForSelector('[data-card="review"]');
    return (await (await fetch(`http://localhost:${port}/api/batches/${id}`)).json()) as BatchReview;
  };

  /** The review, opened by pedal: what a person reads there as the actual weight of each line, g. */
  const reviewPage = async (): Promise<ReadonlyMap<string, number>> => {
    await pedal.take('review');
    const rows = await page.waitForSelector('tr[data-line]').then(() => page.locator('tr[data-line]').all());
    const shown = await Promise.all(
      rows.map(async (row) => [await row.getAttribute('data-line'), await row.locator('[data-actual]').textContent()] as const),
    );
    return new Map(shown.map(([line, text]) => [line ?? '', Number(text?.replaceAll(',', ''))]));
  };
});
