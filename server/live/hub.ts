import type { Server as HttpServer } from 'node:http';
import { Server } from 'socket.io';
import type { Bench } from '#lib/bench/pipeline/types';
import type { Beat } from '#lib/protocol/live';
import type { Log } from '../log';
import type { Pairing } from './pairing';
import { roomFor } from './room';
import { openScreen } from './screen';
import type { LiveServer, Screen, WhoIs } from './screen';
import { callerOf } from './who';

const BEAT_MS = 1_000;
/** A page that froze is noticed within 5 s, not the 45 s of the defaults. */
const PING_INTERVAL_MS = 2_000;
const PING_TIMEOUT_MS = 3_000;
/** An intent with every lot of a long plan is some kilobytes. */
const LONGEST_MESSAGE = 32 * 1024;

export interface HubDeps {
  readonly http: HttpServer;
  readonly bench: Bench;
  readonly build: string;
  readonly pairing: Pairing;
  readonly whoIs?: WhoIs;
  readonly log: Log;
}

/** The live side of the server: every connected screen, and what goes out to all of them. */
export interface Hub {
  /** Another bench runs now (instruments or realm changed): every screen starts over with it. */
  serve(bench: Bench): void;
  /** Screens connected now. */
  screens(): number;
  /** Hangs up on everyone and closes the HTTP server with it. */
  close(): Promise<void>;
}

export const createHub = (deps: HubDeps): Hub => {
  const io: LiveServer = new Server(deps.http, {
    transports: ['websocket'],
    allowUpgrades: false,
    serveClient: false,
    perMessageDeflate: false,
    httpCompression: false,
    maxHttpBufferSize: LONGEST_MESSAGE,
    pingInterval: PING_INTERVAL_MS,
    pingTimeout: PING_TIMEOUT_MS,
    connectTimeout: 5_000,
    // Upgrades that are not ours are answered, or ended, by whoever made the server.
    destroyUpgrade: false,
  });
  const screens = new Set<Screen>();
  let bench = deps.bench;
  let stop = listen();

  function listen(): () => void {
    return bench.listen({
      frame: (frame) => toAll((screen) => screen.frame(frame)),
      forecast: (lane) => toAll((screen) => screen.forecast(lane)),
      record: (lane) => toAll((screen) => screen.record(lane)),
      lease: () => toAll((screen) => screen.lease()),
    });
  }

  const toAll = (send: (screen: Screen) => void): void => {
    for (const screen of screens) {
      try {
        send(screen);
      } catch (error) {
        // One screen's failure is not the others'.
        deps.log.error({ err: error }, 'a screen could not be served');
      }
    }
  };

  io.use((socket, next) => {
    const room = roomFor(callerOf(socket.handshake, deps.pairing), screens, performance.now());
    if (room === 'no') return next(new Error('too many screens'));
    if (room !== 'yes') room.replaced();
    return next();
  });
  io.on('connection', (socket) => {
    const screen = openScreen(socket, { ...deps, bench: () => bench });
    for (const other of screens) if (other.id === screen.id) other.replaced();
    screens.add(screen);
    socket.on('disconnect', () => {
      screens.delete(screen);
      screen.close();
    });
  });

  const beating = setInterval(() => {
    const beat = beatOf(bench);
    toAll((screen) => screen.beat(beat));
  }, BEAT_MS);

  return {
    serve(next) {
      stop();
      bench = next;
      stop = listen();
      toAll((screen) => screen.hello());
    },
    screens: () => screens.size,
    async close() {
      clearInterval(beating);
      stop();
      for (const screen of screens) screen.close();
      await io.close();
    },
  };
};

const beatOf = (bench: Bench): Beat => ({ boot: bench.boot, n: bench.frame().n, at: bench.now(), ages: bench.ages() });
