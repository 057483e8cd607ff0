import { fork } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import type { StageOrder, StageWord } from './stage';

export const SIZES = {
  wide: { width: 1280, height: 800 },
  small: { width: 800, height: 480 },
  phone: { width: 390, height: 844 },
} as const;
export type Size = keyof typeof SIZES;

/** A plain-http name that is not this machine's to a browser: no secure context, and nothing leaves loopback. */
export const PLAIN_NAME = 'bench.test';

/** The system's Chromium, told to stay quiet and at home. */
export const launch = (more: readonly string[] = []): Promise<Browser> =>
  chromium.launch({
    executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      `--host-resolver-rules=MAP ${PLAIN_NAME} 127.0.0.1`,
      ...more,
    ],
  });

type Heard = Extract<StageWord, { say: 'heard' }>;

/** The stage in its own process. */
export interface Theatre {
  readonly port: number;
  readonly process: ChildProcess;
  /** Everything the page sent so far. */
  readonly heard: readonly Heard[];
  order(order: StageOrder): Promise<void>;
  /** Resolves with the next message of an event. */
  next(event: string): Promise<Heard>;
  url(path?: string, name?: string): string;
  close(): Promise<void>;
}

export const openTheatre = async (settings: { readonly port?: number; readonly boot?: string } = {}): Promise<Theatre> => {
  const child = fork(fileURLToPath(new URL('./stage.ts', import.meta.url)), {
    execArgv: ['--import', 'tsx'],
    env: { ...process.env, STAGE_PORT: String(settings.port ?? 0), STAGE_BOOT: settings.boot ?? 'boot-1' },
    stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
  });
  const heard: Heard[] = [];
  const waiting = new Set<(word: StageWord) => void>();
  child.on('message', (word: StageWord) => {
    if (word.say === 'heard') heard.push(word);
    for (const wait of waiting) wait(word);
  });
  const until = <T>(pick: (word: StageWord) => T | null): Promise<T> =>
    new Promise((resolve) => {
      const wait = (word: StageWord): void => {
        const found = pick(word);
        if (found === null) return;
        waiting.delete(wait);
        resolve(found);
      };
      waiting.add(wait);
    });
  const port = await until((word) => (word.say === 'open' ? word.port : null));
  return {
    port,
    process: child,
    heard,
    async order(order) {
      const done = until((word) => (word.say === 'done' && word.order === order.do ? true : null));
      child.send(order);
      await done;
    },
    next: (event) => until((word) => (word.say === 'heard' && word.event === event ? word : null)),
    url: (path = '/bench', name = '127.0.0.1') => `http://${name}:${port}${path}`,
    close: () =>
      new Promise((resolve) => {
        if (child.exitCode !== null || child.signalCode !== null) return resolve();
        child.once('exit', () => resolve());
        child.kill('SIGKILL');
        return undefined;
      }),
  };
};

interface Opening {
  readonly size?: Size;
  readonly path?: string;
  readonly name?: string;
  readonly touch?: boolean;
  /** What a person set on this screen before. */
  readonly preferences?: Readonly<Record<string, unknown>>;
}

/** A page on the bench that has had its first frame. */
export const openBench = async (
  browser: Browser,
  theatre: Theatre,
  { size = 'wide', path = '/bench', name = '127.0.0.1', touch = false, preferences }: Opening = {},
): Promise<{ readonly page: Page; readonly context: BrowserContext }> => {
  const context = await browser.newContext({ viewport: SIZES[size], locale: 'en-GB', hasTouch: touch });
  const page = await context.newPage();
  if (preferences !== undefined)
    await page.addInitScript((kept) => localStorage.setItem('potwatch.preferences', kept), JSON.stringify(preferences));
  await page.goto(theatre.url(path, name));
  await page.waitForSelector('main:not([data-phase="none"])');
  return { page, context };
};
