import type { Browser, Page } from 'playwright-core';
import { labelled } from '#lib/record/journal';
import { appendOf } from '#tests/support/appends';
import type { LiveFrame } from '#lib/protocol/live';
import { probeLine } from '#hardware/practice/encode/probe-line';
import { openStore } from '#server/store/open';
import type { BatchRig } from '#tests/support/batch';
import { ptyPair } from '#tests/support/pty';
import type { Pty } from '#tests/support/pty';
import { freePort, screenAt, serverProcess, tempFolder } from '#tests/support/server-rig';
import type { ScreenRig } from '#tests/support/server-rig';
import { KeptLog, STILL } from '#tests/support/store-rig';
import { launch } from './theatre';

/** A vessel that loses its warmth to what is around it, in true seconds, and a probe with steps of 1/16 degree that stands in it or hangs beside it. */
export interface WarmVessel {
  celsius: number;
  /** Seconds in which it loses some two thirds of its difference. */
  tau: number;
  around: number;
  /** Lifted out: the probe takes on the room within some seconds. */
  lifted: boolean;
}

export interface WarmBench {
  readonly page: Page;
  readonly watcher: ScreenRig;
  readonly vessels: Readonly<Record<'lye' | 'oils', WarmVessel>>;
  /** Resolves with the first frame in which lye and oils read like this, °C. */
  reads(fits: (lye: number, oils: number) => boolean): Promise<LiveFrame>;
  close(): Promise<void>;
}

const STEP_MS = 500;
const ROOM = 21;
/** A probe in the air, s. */
const IN_AIR = 15;
const SIXTEENTH = 1 / 16;

const probeIn = async (use: 'lye' | 'oils', vessel: WarmVessel): Promise<{ readonly pty: Pty; stop(): Promise<void> }> => {
  const pty = await ptyPair();
  let shown = vessel.celsius;
  let at = performance.now();
  const timer = setInterval(() => {
    const dt = (performance.now() - at) / 1000;
    at += 1000 * dt;
    vessel.celsius += (vessel.around - vessel.celsius) * (1 - Math.exp(-dt / vessel.tau));
    shown = vessel.lifted ? shown + (ROOM - shown) * (1 - Math.exp(-dt / IN_AIR)) : vessel.celsius;
    const noise = 0.05 * Math.sin(at / 137);
    void pty.write(probeLine(use, { celsius: Math.round((shown + noise) / SIXTEENTH) * SIXTEENTH }));
  }, STEP_MS);
  return {
    pty,
    async stop() {
      clearInterval(timer);
      await pty.close();
    },
  };
};

/** The record as an earlier start of this bench left it. */
const leave = async (dir: string, before: BatchRig): Promise<void> => {
  const store = await openStore({ dir, realm: 'test', clock: STILL, log: new KeptLog() });
  for (const entry of before.entries) {
    await store.bench.append(appendOf([labelled(entry)]));
  }
  await store.close();
};

/** The production server on two probes over ttys, in the middle of a batch, and its page of temperatures. */
export const warmBench = async (before: BatchRig, vessels: WarmBench['vessels']): Promise<WarmBench> => {
  const folder = tempFolder();
  await leave(folder.path, before);
  const [lye, oils] = await Promise.all([probeIn('lye', vessels.lye), probeIn('oils', vessels.oils)]);
  const port = await freePort();
  const instruments = ['--probe', `lye=${lye.pty.path}`, '--probe', `oils=${oils.pty.path}`];
  const server = await serverProcess(['--port', String(port), '--data', folder.path, ...instruments]);
  const browser: Browser = await launch();
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 }, locale: 'en-GB' });
  await page.goto(`http://localhost:${port}/bench/temperatures`);
  await page.waitForSelector('[data-temperature="lye"]');
  const watcher = screenAt(port);
  await watcher.greeted();
  return {
    page,
    watcher,
    vessels,
    reads: (fits) =>
      watcher.frame(({ probes }) => {
        const value = (use: string): number => (probes.find((probe) => probe.use === use)?.value ?? Number.NaN) / 1000;
        return fits(value('lye'), value('oils'));
      }),
    async close() {
      watcher.close();
      await browser.close();
      if (server.child.exitCode === null) await server.end('SIGTERM');
      await Promise.all([lye.stop(), oils.stop()]);
      folder.remove();
    },
  };
};
