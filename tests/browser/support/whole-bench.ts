import type { Browser, Page } from 'playwright-core';
import type { BenchCue } from '#lib/bench/cue';
import type { BatchState } from '#lib/work/batch/index';
import { startDevice } from '#tests/support/device';
import type { DeviceProcess } from '#tests/support/device';
import { freePort, screenAt, serverProcess, tempFolder } from '#tests/support/server-rig';
import type { ScreenRig } from '#tests/support/server-rig';
import { moveHands } from './maker';
import type { Scales } from './maker';
import { pedalOf } from './pedal';
import type { Pedal } from './pedal';
import { launch } from './theatre';

/** Two scales and two probes on real ttys, the production server, a page, and its pedal. What the bench says is watched beside it. */
export interface WholeBench {
  readonly page: Page;
  readonly pedal: Pedal;
  readonly watcher: ScreenRig;
  readonly scales: Scales;
  readonly probes: Readonly<Record<'lye' | 'oils', DeviceProcess>>;
  cue(): BenchCue;
  batch(): BatchState;
  /** Hands and pedal until the bench is in one of these phases; `instead` is done in place of the next move where it answers true. */
  weighUntil(phases: readonly string[], instead?: () => Promise<boolean>): Promise<void>;
  close(): Promise<void>;
}

/** Frames after which the maker looks again although nothing changed: about a second. */
const LOOKS = 10;

/** `prepare`: what is put on the server's shelf before the page is opened. */
export const wholeBench = async (prepare: (port: number) => Promise<void>): Promise<WholeBench> => {
  const folder = tempFolder();
  const [main, fine, lye, oils] = await Promise.all([
    startDevice('--shape', 'header-comma', '--division', '0.1', '--capacity', '5000', '--seed', '17'),
    startDevice('--shape', 'right-query', '--division', '0.01', '--capacity', '300', '--seed', '18'),
    startDevice('--shape', 'probe-line', '--channel', 'lye', '--seed', '19'),
    startDevice('--shape', 'probe-line', '--channel', 'oils', '--seed', '20'),
  ]);
  const scales = { main, fine };
  const port = await freePort();
  const instruments = ['--scale', main.path, '--scale', fine.path, '--probe', `lye=${lye.path}`, '--probe', `oils=${oils.path}`];
  const server = await serverProcess(['--port', String(port), '--data', folder.path, ...instruments]);
  await prepare(port);
  const browser: Browser = await launch();
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 }, locale: 'en-GB' });
  await page.goto(`http://localhost:${port}/bench`);
  await page.waitForSelector('main[data-phase="idle"]');
  const watcher = screenAt(port);
  await watcher.greeted();
  const pedal = pedalOf(page, watcher);

  const cue = (): BenchCue => {
    const newest = watcher.frames.at(-1);
    if (newest === undefined) throw new Error('no frame yet');
    return newest.cue;
  };
  const batch = (): BatchState => {
    const state = watcher.batch();
    if (state === null) throw new Error('no batch');
    return state;
  };
  const move = async (): Promise<void> => {
    const { phase } = cue();
    if (phase === 'gate' || phase === 'hold') await pedal.confirm();
    else if (phase === 'ask') await pedal.press();
    else await moveHands(scales, { cue: cue(), batch: batch() });
  };

  return {
    page,
    pedal,
    watcher,
    scales,
    probes: { lye, oils },
    cue,
    batch,
    async weighUntil(phases, instead = () => Promise.resolve(false)) {
      let before = '';
      while (!phases.includes(cue().phase)) {
        const { phase, line } = cue();
        let looks = 0;
        const still = watcher.frame((frame) => frame.cue.phase !== phase || frame.cue.line !== line || (looks += 1) > LOOKS);
        // When a pour begins the hands are still: whether the stream has ended, the next looks will show.
        if (!(phase === 'pouring' && before !== 'pouring') && !(await instead())) await move();
        before = phase;
        await still;
      }
    },
    async close() {
      watcher.close();
      await browser.close();
      if (server.child.exitCode === null) await server.end('SIGTERM');
      await Promise.all([main, fine, lye, oils].map((device) => device.end()));
      folder.remove();
    },
  };
};
