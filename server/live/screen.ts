import type { DefaultEventsMap, Server, Socket } from 'socket.io';
import * as z from 'zod/mini';
import type { Bench, Sender } from '#lib/bench/pipeline/types';
import type { ForecastLane } from '#lib/protocol/forecast';
import { aliveBeat, benchIntent, leaseAsk, pairAsk, resumeAsk, sceneAct } from '#lib/protocol/intent';
import type { IntentAnswer } from '#lib/protocol/intent';
import { PROTOCOL_VERSION } from '#lib/protocol/lanes';
import type { PairAnswer, RecordLane, ScreenToServer, ServerToScreen } from '#lib/protocol/lanes';
import type { Beat, LiveFrame } from '#lib/protocol/live';
import type { PersonId } from '#lib/units/id';
import type { RefusalCode } from '#lib/work/batch/index';
import type { Log } from '../log';
import { createBucket } from './bucket';
import { createOutlet, LIVE_CAP_BYTES } from './outlet';
import type { Pairing } from './pairing';
import type { Opened } from './room';
import { callerOf } from './who';

export type LiveServer = Server<ScreenToServer, ServerToScreen, DefaultEventsMap, unknown>;
type LiveSocket = Socket<ScreenToServer, ServerToScreen, DefaultEventsMap, unknown>;

/** More than any hand sends; a page in a loop is held here and, when it does not stop, hung up on. */
const BURST = 60;
const PER_SECOND = 30;
const PATIENCE = 300;

export interface ScreenDeps {
  readonly bench: () => Bench;
  readonly build: string;
  readonly pairing: Pairing;
  /** Who acts, by the pass a screen sends; left out, nobody has a name. */
  readonly whoIs?: WhoIs;
  readonly log: Log;
}
export type WhoIs = (pass: string | undefined) => PersonId;

/** One connected screen. */
export interface Screen extends Opened {
  hello(): void;
  frame(frame: LiveFrame): void;
  forecast(lane: ForecastLane): void;
  record(lane: RecordLane): void;
  beat(beat: Beat): void;
  lease(): void;
  /** Another screen has its place: the same page connected again, or one that has more to say. */
  replaced(): void;
  close(): void;
}

export const openScreen = (socket: LiveSocket, deps: ScreenDeps): Screen => {
  const { id, place: found } = callerOf(socket.handshake, deps.pairing);
  let place = found;
  let heardAt = performance.now();
  const role = (): Sender['role'] => (place === 'elsewhere' ? 'watcher' : 'maker');
  let greeted = false;
  let leaseSent = '';

  const outlet = createOutlet({
    now: () => performance.now(),
    after: (ms, run) => {
      const timer = setTimeout(run, ms);
      return () => clearTimeout(timer);
    },
    buffered: () => bufferedBytes(socket),
    sendFrame: (frame) => socket.emit('live', frame),
    sendForecast: (lane) => socket.emit('forecast', lane),
    sendRecord: (lane) => socket.emit('record', lane),
    readRecord: (batch, after) => deps.bench().lane(batch, after),
  });

  const hello = async (): Promise<void> => {
    const bench = deps.bench();
    const batch = await bench.lane(null, 0);
    if (bench !== deps.bench() || !socket.connected) return;
    outlet.has(batch.batch, batch.seq);
    socket.emit('hello', {
      boot: bench.boot,
      protocol: PROTOCOL_VERSION,
      build: deps.build,
      bench: bench.name,
      realm: bench.realm,
      role: role(),
      screen: id,
      lease: bench.leaseFor(id),
      batch,
      live: bench.frame(),
      forecast: bench.forecast(),
      at: bench.now(),
    });
    greeted = true;
  };
  const greet = (): void => {
    greeted = false;
    hello().catch((error: unknown) => {
      deps.log.error({ err: error, screen: id }, 'a screen could not be greeted; it is asked to come again');
      socket.conn.close();
    });
  };

  answerScreen(socket, deps, {
    sender: () => ({ screen: id, role: role() }),
    heard: () => (heardAt = performance.now()),
    paired: () => {
      if (place === 'elsewhere') place = 'paired';
      greet();
    },
    resumed: (lane) => outlet.has(lane.batch, lane.seq),
  });
  greet();

  const sendLease = (): void => {
    const lease = deps.bench().leaseFor(id);
    const text = JSON.stringify(lease);
    if (text === leaseSent) return;
    leaseSent = text;
    socket.emit('lease', lease);
  };

  return {
    id,
    place: () => place,
    heardAt: () => heardAt,
    hello: greet,
    frame: (frame) => void (greeted && outlet.frame(frame)),
    forecast: (lane) => void (greeted && outlet.forecast(lane)),
    record: (lane) => void (greeted && outlet.record(lane)),
    beat(beat) {
      // A beat is worth nothing later: a screen that is full goes without. (`volatile` would drop it behind any message of the same tick.)
      if (bufferedBytes(socket) <= LIVE_CAP_BYTES) socket.emit('beat', beat);
      if (deps.bench().leaseFor(id).lostForMs !== null) sendLease();
    },
    lease: sendLease,
    replaced: () => void socket.disconnect(true),
    close() {
      outlet.close();
      cut(socket);
      deps.bench().parted(id);
    },
  };
};

interface Answering {
  readonly sender: () => Sender;
  /** It said something that was understood. */
  readonly heard: () => void;
  readonly paired: () => void;
  readonly resumed: (lane: RecordLane) => void;
}

/** Everything a screen may say. Every message is parsed, every answer given, and no failure of one leaves this function. */
const answerScreen = (socket: LiveSocket, deps: ScreenDeps, { sender, heard, paired, resumed }: Answering): void => {
  const bucket = createBucket(() => performance.now(), BURST, PER_SECOND);
  const mayWatchOnly = () => sender().role === 'watcher';
  const who = (pass: string | undefined): Pick<Sender, 'person'> => (deps.whoIs === undefined ? {} : { person: deps.whoIs(pass) });

  const hear = <Schema extends z.core.$ZodType, Answer>(
    schema: Schema,
    otherwise: (code: RefusalCode) => Answer,
    handle: (said: z.core.output<Schema>) => Answer | Promise<Answer>,
  ) => {
    const answerTo = async (said: unknown): Promise<Answer> => {
      if (!bucket.take()) {
        if (bucket.refused() > PATIENCE) socket.disconnect(true);
        return otherwise('too-fast');
      }
      const read = z.safeParse(schema, said);
      if (!read.success) return otherwise('malformed');
      heard();
      return handle(read.data);
    };
    return (said: unknown, ack?: unknown): void => {
      answerTo(said)
        .catch((error: unknown) => {
          deps.log.error({ err: error }, 'a message of a screen could not be handled');
          return otherwise('malformed');
        })
        .then((answer) => (typeof ack === 'function' ? void ack(answer) : undefined))
        .catch(() => undefined);
    };
  };

  socket.on(
    'intent',
    hear(benchIntent, refused, (intent) => deps.bench().intent({ ...sender(), ...who(intent.person) }, intent)),
  );
  socket.on(
    'resume',
    hear(
      resumeAsk,
      (): RecordLane => ({ batch: null, from: -1, seq: 0, lines: [] }),
      async ({ batch, seq }) => {
        const lane = await deps.bench().lane(batch, seq);
        resumed(lane);
        return lane;
      },
    ),
  );
  socket.on(
    'lease',
    hear(
      leaseAsk,
      () => deps.bench().leaseFor(sender().screen),
      ({ want, label }) => {
        const { screen } = sender();
        const may = want === 'take' || (want === 'take-free' && deps.bench().leaseFor(screen).holder === null);
        if (may && !mayWatchOnly()) deps.bench().takeLease(screen, label);
        if (want === 'release') deps.bench().releaseLease(screen);
        return deps.bench().leaseFor(screen);
      },
    ),
  );
  socket.on(
    'pair',
    hear(
      pairAsk,
      (): PairAnswer => ({ ok: false, waitMs: 1_000 }),
      ({ code }): PairAnswer => {
        const tried = deps.pairing.redeem(code);
        if (!tried.ok) return { ok: false, waitMs: tried.waitMs };
        paired();
        return { ok: true, waitMs: 0, token: tried.token };
      },
    ),
  );
  socket.on(
    'scene',
    hear(
      sceneAct,
      (why) => ({ ok: false, why: why as string | null }),
      async (act) => (mayWatchOnly() ? { ok: false, why: 'not-yours' } : deps.bench().scene(act)),
    ),
  );
  socket.on(
    'alive',
    hear(
      aliveBeat,
      () => undefined,
      ({ visible, covered, boot, person }) => {
        if (boot === deps.bench().boot) deps.bench().alive(sender().screen, visible, who(person).person, covered);
      },
    ),
  );
};

const refused = (code: RefusalCode): IntentAnswer => ({ ok: false, refusal: { code, params: {} } });

interface Transport {
  readonly socket?: { readonly bufferedAmount?: number; terminate?(): void };
}

/** A screen that stopped reading never answers the closing handshake either: what waits for it is dropped with the connection. */
const cut = (socket: LiveSocket): void => (socket.conn.transport as unknown as Transport).socket?.terminate?.();

/** Bytes that wait for this screen: in the WebSocket and, while that is full, in the engine above it. */
const bufferedBytes = (socket: LiveSocket): number => {
  const transport = socket.conn.transport as unknown as Transport;
  let bytes = transport.socket?.bufferedAmount ?? 0;
  const queued = (socket.conn as unknown as { readonly writeBuffer?: readonly { readonly data?: string }[] }).writeBuffer ?? [];
  for (const packet of queued) bytes += packet.data?.length ?? 0;
  return bytes;
};
