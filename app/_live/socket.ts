import { io, WebSocket } from 'socket.io-client';
import type { Socket } from 'socket.io-client';
import type { ScreenAuth, ScreenToServer, ServerToScreen } from '#lib/protocol/lanes';

type Asks = Omit<ScreenToServer, 'alive'>;
type Answer<K extends keyof Asks> = Parameters<Parameters<Asks[K]>[1]>[0];

export type WireHandlers = { readonly [K in keyof ServerToScreen]: ServerToScreen[K] } & {
  readonly open: () => void;
  readonly shut: () => void;
};

/** The line to the server. It keeps nothing back for later: what cannot be said now is not said. */
export interface Wire {
  connected(): boolean;
  /** Asks and waits at most `withinMs`; `null`: no answer came, or there is no connection. */
  ask<K extends keyof Asks>(event: K, message: unknown, withinMs: number): Promise<Answer<K> | null>;
  /** The page's heartbeat. */
  alive(beat: unknown): void;
  /** Connects anew, with what `auth` says now. */
  reopen(): void;
}

const FIRST_RETRY_MS = 200;

/**
 * Opens the socket: WebSocket only. The library would keep messages sent while disconnected and deliver them all on reconnecting, so
 * that three taps at a dead server become three pours; here nothing is emitted unless connected, and nothing stays in the buffer.
 */
export const openWire = (auth: () => ScreenAuth, handlers: WireHandlers): Wire => {
  const socket: Socket<ServerToScreen, ScreenToServer> = io({
    transports: [WebSocket],
    auth: (give: (auth: ScreenAuth) => void) => give(auth()),
    reconnectionDelay: FIRST_RETRY_MS,
    reconnectionDelayMax: 2_000,
    randomizationFactor: 0.5,
    timeout: 5_000,
    closeOnBeforeunload: true,
  });
  const { open, shut, ...lanes } = handlers;
  socket.on('connect', open);
  socket.on('disconnect', (reason) => {
    shut();
    // The library takes a server's goodbye as final; ours says goodbye when it is stopped, and comes back.
    if (reason === 'io server disconnect') setTimeout(() => socket.connect(), FIRST_RETRY_MS * (1 + Math.random()));
  });
  socket.on('hello', lanes.hello);
  socket.on('live', lanes.live);
  socket.on('forecast', lanes.forecast);
  socket.on('record', lanes.record);
  socket.on('beat', lanes.beat);
  socket.on('lease', lanes.lease);

  return {
    connected: () => socket.connected,
    ask: (event, message, withinMs) =>
      new Promise((resolve) => {
        if (!socket.connected) return resolve(null);
        // Event and answer are paired by `Asks`; the library's own types cannot carry a generic event through.
        const emit = socket.timeout(withinMs).emit.bind(socket) as (
          event: string,
          message: unknown,
          ack: (error: Error | null, answer: never) => void,
        ) => void;
        emit(event, message, (error, answer) => resolve(error === null ? answer : null));
        // A socket that missed its ping counts as connected and still buffers: take the message back.
        if (socket.sendBuffer.length === 0) return undefined;
        socket.sendBuffer.length = 0;
        return resolve(null);
      }),
    alive: (beat) => {
      if (socket.connected) socket.volatile.emit('alive', beat);
    },
    reopen: () => {
      socket.disconnect();
      socket.connect();
    },
  };
};
