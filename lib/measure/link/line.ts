import type { InstrumentConfig, LinkFailure, WireFault } from '../instrument';
import type { Reading } from '../reading';
import type { Shape } from '../shape';
import { monotonic, type Monotonic } from '#lib/units/time';
import { createOpening } from './opening';
import { createPolling } from './polling';
import type { OpenPort } from './port';
import type { RawRing } from './raw-ring';
import { reopenAfter } from './retry';
import { OTHER_UNIT } from './words';

/** How often an open line is looked at, ms. */
export const TICK_MS = 100;
/** Without a byte, or once live without a reading, for so long a line is silent, ms. */
export const SILENT_MS = 2_000;
/** Bytes, but no reading for so long while proof is awaited, ms: a probe that speaks once a second proves itself in less. */
export const UNREADABLE_MS = 4_500;
/** A tick so much late means that the process stood still, and the instrument's silence is not its own. */
const STALL_MS = 400;

/** What a look at an open line says. */
export interface Verdict {
  readonly phase: 'identifying' | 'live' | 'silent';
  /** `null`: nothing new; `live` has none. */
  readonly failure: LinkFailure | null;
  readonly detail: string;
  /** Silent for so long that the port is to be closed and opened anew. */
  readonly reopen: boolean;
}

export interface LineParts {
  readonly config: InstrumentConfig;
  /** The shape chosen or proved before; `null`: any of the instrument's kind. */
  readonly expected: Shape | null;
  /** Reopenings since the last reading that brought none. */
  readonly fruitless: number;
  readonly now: Monotonic;
  readonly ring: RawRing;
  readonly sink: { reading(reading: Reading): void; fault(fault: WireFault, raw: Uint8Array): void };
}

/** One opening of the port while it is open: reads it, asks the instrument if it must be asked, and judges its silence. */
export interface Line {
  take(chunk: Uint8Array, at: Monotonic): void;
  /** Called every `TICK_MS`. */
  tick(now: Monotonic, port: Pick<OpenPort, 'write'>): Verdict;
  heard(): Shape | null;
}

export const createLine = ({ config, expected, fruitless, now: openedAt, ring, sink }: LineParts): Line => {
  const polling = createPolling(config, expected);
  let readingAt = openedAt;
  let byteAt = openedAt;
  let tickedAt = openedAt;
  let live = false;
  let otherChannel = false;
  let otherUnit = false;
  let writing = false;

  const opening = createOpening({
    config,
    expected,
    sink: {
      reading(reading) {
        readingAt = reading.at;
        live = true;
        otherChannel = false;
        otherUnit = false;
        ring.push(reading.raw, reading.at, reading);
        sink.reading(reading);
      },
      withheld: (reading) => ring.push(reading.raw, reading.at, { withheld: reading }),
      unread: (bytes) => ring.push(bytes, byteAt, 'unread'),
      fault(fault, raw) {
        otherChannel = fault === 'other-channel';
        otherUnit = fault === 'unknown-unit';
        ring.push(raw, byteAt, fault);
        sink.fault(fault, raw);
      },
    },
  });

  /** Time in which the process stood still, or the port was still opening, is taken out of every silence. */
  const forgiveStall = (now: Monotonic): void => {
    const late = now - tickedAt - TICK_MS;
    tickedAt = now;
    if (late <= STALL_MS) return;
    readingAt = monotonic(readingAt + late);
    byteAt = monotonic(byteAt + late);
  };

  const ask = (now: Monotonic, port: Pick<OpenPort, 'write'>): void => {
    const request = writing ? null : polling.due(now, opening.heard(), now - byteAt);
    if (request === null) return;
    writing = true;
    const written = (): void => {
      writing = false;
    };
    // A write that fails is followed by the close of its port, which says more.
    port.write(request).then(written, written);
  };

  const judge = (now: Monotonic): Verdict => {
    const quiet = now - readingAt;
    const speechless = live ? 'silent' : 'identifying';
    const reopen = quiet >= reopenAfter(fruitless);
    if (now - byteAt >= SILENT_MS) return { phase: 'silent', failure: 'silent', detail: '', reopen };
    // Reopening would only bring a stranger back: stay and listen.
    if (opening.stranger()) {
      readingAt = now;
      const detail = `hears ${opening.heard()}, expects ${expected ?? `a ${config.kind}`}`;
      return { phase: speechless, failure: 'stranger', detail, reopen: false };
    }
    if (quiet < (live ? SILENT_MS : UNREADABLE_MS)) return { phase: live ? 'live' : 'identifying', failure: null, detail: '', reopen };
    if (otherChannel) return { phase: speechless, failure: 'stranger', detail: 'hears another channel', reopen: false };
    return { phase: speechless, failure: 'unreadable', detail: otherUnit ? OTHER_UNIT : '', reopen };
  };

  return {
    take(chunk, at) {
      byteAt = at;
      polling.heard(chunk);
      opening.push(chunk, at);
    },
    tick(now, port) {
      forgiveStall(now);
      opening.idle(now);
      ask(now, port);
      return judge(now);
    },
    heard: () => opening.heard(),
  };
};
