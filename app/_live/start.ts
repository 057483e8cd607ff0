import { createDrawing, inNextTask } from './drawing';
import { createGuard } from './guard';
import { freshId } from './id';
import { createLive } from './live';
import type { Live } from './live';
import { fold } from './fold';
import { watchGlass } from './gestures';
import { preferences, recallPreferences, token } from './preferences';
import { createRing, SAMPLE_EVERY_MS } from './ring';
import { openWire } from './socket';
import { createSound } from './sound';
import { createWebSpeaker } from './speech';
import type { Speaker } from './speech';
import { createLiveStore } from './store';
import { createWriters } from './writers';

/** The page's one store and one guard. Both exist before the page does, for the exported HTML. */
export const liveStore = createLiveStore();
/** For the digits of the one number: within the very task that brought the reading. */
export const onLive = createWriters(liveStore);
export const drawing = createDrawing(liveStore, inNextTask());
/** For every other text that changes with the readings: each write keeps the number waiting, and none of them is waited for. */
export const onDrawing = createWriters(drawing);
export const guard = createGuard(
  () => performance.now(),
  (until) => (document.documentElement.dataset['deaf'] = `${until}`),
);
export const sound = createSound();
export const temperatures = createRing();

interface Page {
  readonly live: Live;
  readonly speaker: Speaker;
}

let page: Page | null = null;

/** Connects this page to the bench, once; every later call returns the same. In the browser only. */
export const startPage = (): Page => {
  if (page !== null) return page;
  recallPreferences();
  sound.mute(preferences.getState().muted);
  const secret = freshId(32);
  const live = createLive({
    store: liveStore,
    digitsFirst: (change) => drawing.digitsFirst(change),
    openWire,
    fold,
    clock: { monotonic: () => performance.now(), wall: () => Date.now() },
    freshId,
    every: (ms, run) => void setInterval(run, ms),
    visible: () => document.visibilityState === 'visible',
    auth: () => {
      const kept = token.read();
      return kept === null ? { screen: secret } : { screen: secret, token: kept };
    },
    person: () => {
      const { pass } = preferences.getState();
      return pass === null ? {} : { person: pass };
    },
  });
  page = { live, speaker: createWebSpeaker() };
  watchGlass();
  watchWaking(live);
  watchReconnecting();
  sample();
  void redeem(live);
  return page;
};

/** Waking, being shown again, coming online: judge what is on the screen before anyone reads it, and swallow the finger that woke it. */
const watchWaking = (live: Live): void => {
  const woke = (): void => {
    live.check();
    guard.quiet();
  };
  document.addEventListener('visibilitychange', woke);
  window.addEventListener('pageshow', woke);
  window.addEventListener('online', woke);
  for (const kind of ['pointerup', 'keydown'] as const) window.addEventListener(kind, wakeSound, { capture: true });
};

const wakeSound = (): void => sound.wake();

const watchReconnecting = (): void => {
  liveStore.subscribe((now, before) => {
    if (now.link !== before.link || now.stale !== before.stale) guard.quiet();
  });
};

const sample = (): void => {
  setInterval(() => {
    const probes = liveStore.getState().frame?.probes ?? [];
    const value = (use: string): number => (probes.find((probe) => probe.use === use)?.value ?? NaN) / 1000;
    temperatures.push(performance.now() / 1000, value('lye'), value('oils'));
  }, SAMPLE_EVERY_MS);
};

/** A screen opened by the printed code exchanges it for a token, and the code leaves the address. */
const redeem = async (live: Live): Promise<void> => {
  const code = new URLSearchParams(location.hash.slice(1)).get('code') ?? new URLSearchParams(location.search).get('code');
  if (code === null) return;
  history.replaceState(null, '', location.pathname);
  await new Promise<void>((resolve) => {
    const up = (): boolean => liveStore.getState().link === 'up';
    if (up()) return resolve();
    const stop = liveStore.subscribe(() => {
      if (!up()) return;
      stop();
      resolve();
    });
    return undefined;
  });
  // A screen that may weigh already needs none, and takes it from nobody.
  if (liveStore.getState().standing?.role === 'maker') return;
  const answer = await live.pair(code);
  if (answer?.token != null) token.keep(answer.token);
  else if (answer !== null) liveStore.setState({ codeRefused: true });
};
