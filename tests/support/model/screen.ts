import { fold } from '../../../app/_live/fold';
import { createLive } from '../../../app/_live/live';
import type { WireHandlers } from '../../../app/_live/socket';
import { createLiveStore } from '../../../app/_live/store';
import type { LiveState } from '../../../app/_live/store';
import type { Bench } from '#lib/bench/pipeline/types';
import type { ScreenId } from '#lib/units/id';
import { openScreen } from '#server/live/screen';
import type { Screen, ScreenDeps } from '#server/live/screen';
import { screenIdOf } from '#server/live/who';
import { pino } from 'pino';

/** A page and the server's side of it, both the real ones, with a wire between them that the test cuts. */
export interface ModelScreen {
  readonly id: ScreenId;
  readonly connected: boolean;
  /** What the page has; `greeted`: the server has sent it everything there was. */
  state(): LiveState;
  greeted(): boolean;
  /** Connects, or connects anew, to the bench that runs now. */
  connect(bench: Bench): void;
  cut(): void;
}

type Hear = (...said: readonly unknown[]) => void;

export const createModelScreen = (name: string, now: () => number): ModelScreen => {
  const secret = name.padEnd(16, '-');
  const id = screenIdOf(secret);
  const store = createLiveStore();
  let server: { readonly screen: Screen; readonly hear: ReadonlyMap<string, Hear>; stop(): void } | null = null;
  let bench: Bench | null = null;
  let greeted = false;
  let handlers: WireHandlers | null = null;

  const say = (event: string, message: unknown): Promise<unknown> =>
    new Promise((resolve) => {
      const hear = server?.hear.get(event);
      if (hear === undefined) resolve(null);
      else hear(message, resolve);
    });
  const cut = (): void => {
    if (server === null) return;
    const ended = server;
    server = null;
    greeted = false;
    ended.stop();
    ended.screen.close();
    handlers?.shut();
  };
  const connect = (to: Bench): void => {
    cut();
    bench = to;
    const { socket, hear } = fakeSocket(secret, (event, payload) => {
      if (server?.hear !== hear && server !== null) return;
      if (event === 'hello') greeted = true;
      (handlers?.[event as keyof WireHandlers] as Hear | undefined)?.(payload);
    });
    const screen = openScreen(socket, {
      bench: () => to,
      build: 'model',
      pairing: { knows: () => false } as unknown as ScreenDeps['pairing'],
      log: pino({ level: 'silent' }),
    });
    const stop = to.listen({
      frame: (frame) => screen.frame(frame),
      forecast: (lane) => screen.forecast(lane),
      record: (lane) => screen.record(lane),
      lease: () => screen.lease(),
    });
    server = { screen, hear, stop };
  };

  createLive({
    store,
    digitsFirst: (change) => change(),
    openWire: (_auth, given) => {
      handlers = given;
      return {
        connected: () => server !== null,
        ask: (event, message) => say(event, message) as never,
        alive: () => undefined,
        reopen: () => {
          if (bench !== null) connect(bench);
        },
      };
    },
    fold,
    clock: { monotonic: now, wall: now },
    freshId: () => 'never-used',
    every: () => undefined,
    visible: () => true,
    auth: () => ({ screen: secret }),
  });

  return {
    id,
    get connected() {
      return server !== null;
    },
    state: () => store.getState(),
    greeted: () => greeted,
    connect,
    cut,
  };
};

/** As much of a server's socket as a screen needs. */
const fakeSocket = (secret: string, emit: (event: string, payload: unknown) => void) => {
  const hear = new Map<string, Hear>();
  const socket = {
    handshake: { auth: { screen: secret }, address: '127.0.0.1', headers: {} },
    connected: true,
    conn: { transport: {}, close: () => undefined },
    emit,
    on: (event: string, handler: Hear) => void hear.set(event, handler),
    disconnect: () => undefined,
  };
  return { socket: socket as unknown as Parameters<typeof openScreen>[0], hear };
};
