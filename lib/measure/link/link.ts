import type { InstrumentConfig, LinkFailure, LinkPhase, LinkStatus, WireFault } from '../instrument';
import type { Reading } from '../reading';
import type { Shape } from '../shape';
import type { Clock } from '#lib/units/time';
import { createLine, TICK_MS, type Line, type Verdict } from './line';
import { createLosses } from './losses';
import { PortError, type OpenPort, type PortOpener } from './port';
import { createRawRing, type RawFrame } from './raw-ring';
import { retryDelay } from './retry';
import type { Timers } from './timers';

/** A close that takes longer is no longer waited for, ms; the port then shows as busy until it is free. */
export const CLOSE_MS = 2_000;
/** An open that takes longer is said aloud, ms, but waited for: a second one would only hang beside it. */
export const SLOW_OPEN_MS = 5_000;

export interface LinkSink {
  reading(reading: Reading): void;
  /** Called when phase, failure, detail, shape or nature changed. */
  status(status: LinkStatus): void;
  fault?(fault: WireFault, raw: Uint8Array): void;
}

export interface LinkParts {
  readonly config: InstrumentConfig;
  readonly opener: PortOpener;
  readonly clock: Pick<Clock, 'now'>;
  readonly timers: Timers;
  readonly sink: LinkSink;
}

/** The one owner of one instrument's port: it alone opens, proves, watches, closes and retries. */
export interface Link {
  /** Once: a link that was stopped stays so. */
  start(): void;
  /** Resolves when the port is free, or after `CLOSE_MS`. Nothing reaches the sink afterwards but the status `closed`. */
  stop(): Promise<void>;
  status(): LinkStatus;
  /** The newest raw frames, newest first. */
  rawFrames(): RawFrame[];
}

/** One try to open and all that follows from it. Whatever arrives for a try that is no longer the state is ignored. */
interface Try {
  readonly is: 'try';
  phase: 'opening' | Verdict['phase'];
  port: OpenPort | null;
  readonly line: Line;
  /** Resolves when the open has ended either way and a port that came too late is closed again. */
  asked: Promise<void>;
}

type State =
  | { readonly is: 'idle' }
  | Try
  | { readonly is: 'closing'; readonly port: OpenPort }
  | { readonly is: 'waiting'; readonly until: number }
  | { readonly is: 'stopped'; readonly freed: Promise<void> };

export const createLink = ({ config, opener, clock, timers, sink }: LinkParts): Link => {
  const timer = createTimer(timers);
  const losses = createLosses();
  const ring = createRawRing();
  const faults: Partial<Record<WireFault, number>> = {};
  let state: State = { is: 'idle' };
  let failure: LinkFailure | null = null;
  let detail = '';
  let nature: LinkStatus['nature'] = null;
  /** What somebody chose, or the first proof of this run: from then on another shape on this port is a stranger. */
  let expected: Shape | null = config.shape;
  let proved: Shape | null = null;
  let readings = 0;
  /** Tries, and reopenings for silence, since the last reading. */
  let tries = 0;
  let fruitless = 0;
  let announced = '';

  const status = (): LinkStatus => {
    const now = clock.now();
    return {
      instrument: config.id,
      phase: phaseOf(state),
      failure,
      detail,
      shape: proved,
      nature,
      lossesLastHour: losses.lastHour(now),
      retryInMs: state.is === 'waiting' ? Math.max(0, state.until - now) : null,
      faults: { ...faults },
      readings,
    };
  };

  const announce = (): void => {
    const key = [phaseOf(state), failure, detail, proved, nature].join('\n');
    if (key === announced) return;
    announced = key;
    sink.status(status());
  };

  const fail = (what: LinkFailure, said: string): void => {
    failure = what;
    detail = said;
  };

  const tryToOpen = (): void => {
    const lineSink = {
      reading: (reading: Reading) => read(mine, reading),
      fault(fault: WireFault, raw: Uint8Array) {
        faults[fault] = (faults[fault] ?? 0) + 1;
        sink.fault?.(fault, raw);
      },
    };
    const line = createLine({ config, expected, fruitless, now: clock.now(), ring, sink: lineSink });
    const mine: Try = { is: 'try', phase: 'opening', port: null, line, asked: Promise.resolve() };
    state = mine;
    timer.arm(SLOW_OPEN_MS, () => {
      fail('failed', `the system has not opened the port for ${SLOW_OPEN_MS / 1000} s`);
      announce();
    });
    announce();
    const events = {
      data: (chunk: Uint8Array, at: Reading['at']) => {
        if (state === mine) line.take(chunk, at);
      },
      closed: () => {
        if (state === mine) lose();
      },
    };
    mine.asked = opener.open(config.path, config.serial, events).then(
      (port) => (state === mine ? opened(mine, port) : port.close().catch(() => {})),
      (error: unknown) => {
        if (state === mine) refused(error);
      },
    );
  };

  const opened = (mine: Try, port: OpenPort): void => {
    mine.port = port;
    nature = port.nature;
    if (mine.phase === 'opening') mine.phase = 'identifying';
    timer.arm(TICK_MS, () => tick(mine, port));
    announce();
  };

  const refused = (error: unknown): void => {
    fail(error instanceof PortError ? error.code : 'failed', error instanceof Error ? error.message : String(error));
    retry();
  };

  const lose = (): void => {
    losses.add(clock.now());
    fail('lost', '');
    retry();
  };

  const retry = (): void => {
    const wait = retryDelay(config.id, tries);
    tries += 1;
    state = { is: 'waiting', until: clock.now() + wait };
    timer.arm(wait, tryToOpen);
    announce();
  };

  const read = (mine: Try, reading: Reading): void => {
    // The sink may have stopped us from inside an earlier reading of the same chunk.
    if (state !== mine) return;
    readings += 1;
    tries = 0;
    fruitless = 0;
    mine.phase = 'live';
    proved = mine.line.heard();
    expected ??= proved;
    failure = null;
    detail = '';
    announce();
    if (state === mine) sink.reading(reading);
  };

  const tick = (mine: Try, port: OpenPort): void => {
    const verdict = mine.line.tick(clock.now(), port);
    mine.phase = verdict.phase;
    if (verdict.failure !== null) fail(verdict.failure, verdict.detail);
    if (verdict.reopen) reopen(port);
    else timer.arm(TICK_MS, () => tick(mine, port));
    announce();
  };

  /** The watchdog: closes, waits no longer than `CLOSE_MS` for it, and tries anew. */
  const reopen = (port: OpenPort): void => {
    fruitless += 1;
    losses.add(clock.now());
    const closing: State = { is: 'closing', port };
    state = closing;
    const freed = (): void => {
      if (state === closing) retry();
    };
    timer.arm(CLOSE_MS, freed);
    port.close().then(freed, freed);
  };

  const stop = (): Promise<void> => {
    if (state.is === 'stopped') return state.freed;
    const before = state;
    const freed = new Promise<void>((resolve) => {
      const free = (): void => {
        timer.drop();
        resolve();
      };
      timer.arm(CLOSE_MS, free);
      released(before).then(free, free);
    });
    state = { is: 'stopped', freed };
    announce();
    return freed;
  };

  return {
    start() {
      if (state.is === 'idle') tryToOpen();
    },
    stop,
    status,
    rawFrames: () => ring.frames(clock.now()),
  };
};

const phaseOf = (state: State): LinkPhase => {
  if (state.is === 'try') return state.phase;
  if (state.is === 'closing') return 'silent';
  return state.is === 'waiting' ? 'waiting' : 'closed';
};

/** Frees whatever port a state holds or is about to get. */
const released = (state: State): Promise<void> => {
  if (state.is === 'closing') return state.port.close();
  if (state.is === 'try') return state.port === null ? state.asked : state.port.close();
  return Promise.resolve();
};

/** The link's only timer: arming it drops the one before. */
const createTimer = (timers: Timers) => {
  let pending: unknown = null;
  const drop = (): void => {
    if (pending !== null) timers.clear(pending);
    pending = null;
  };
  return {
    drop,
    arm(ms: number, run: () => void): void {
      drop();
      pending = timers.set(() => {
        pending = null;
        run();
      }, ms);
    },
  };
};
