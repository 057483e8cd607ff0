import type { ForecastLane } from '#lib/protocol/forecast';
import type { LiveFrame } from '#lib/protocol/live';
import type { RecordLane } from '#lib/protocol/lanes';

/** At most 25 frames a second to one screen. */
export const FRAME_GAP_MS = 40;
/** What may wait unsent for one screen; a slower screen gets the newest frame later, and older ones never. */
export const LIVE_CAP_BYTES = 64 * 1024;
/** The record waits longer than frames do, but not without end: beyond this the lane is read again from the journal. */
export const RECORD_CAP_BYTES = 512 * 1024;

export interface OutletDeps {
  readonly now: () => number;
  /** Calls once after `ms`; returns the way to call it off. */
  readonly after: (ms: number, run: () => void) => () => void;
  /** Bytes written for this screen and not yet taken by the network. */
  readonly buffered: () => number;
  readonly sendFrame: (frame: LiveFrame) => void;
  readonly sendForecast: (lane: ForecastLane) => void;
  readonly sendRecord: (lane: RecordLane) => void;
  /** The record after a sequence number, from the journal. */
  readonly readRecord: (batch: string | null, after: number) => Promise<RecordLane>;
}

/** What one screen gets: the newest frame and forecast as soon as it can take them, and every line of the record in order. */
export interface Outlet {
  frame(frame: LiveFrame): void;
  forecast(lane: ForecastLane): void;
  record(lane: RecordLane): void;
  /** The screen has the record up to here, by hello or by its own resume. */
  has(batch: string | null, seq: number): void;
  close(): void;
}

export const createOutlet = (deps: OutletDeps): Outlet => {
  let closed = false;
  let waiting: LiveFrame | null = null;
  let merged = 0;
  let forecast: ForecastLane | null = null;
  let sentAt = -Infinity;
  let cancel: (() => void) | null = null;
  let at: { batch: string | null; seq: number } = { batch: null, seq: 0 };
  let behind = false;
  let reading = false;

  const later = (ms: number): void => {
    cancel ??= deps.after(ms, () => {
      cancel = null;
      pump();
    });
  };

  const pump = (): void => {
    if (closed) return;
    if (behind) catchUp();
    if (waiting === null && forecast === null) return;
    if (deps.buffered() > LIVE_CAP_BYTES) return later(FRAME_GAP_MS);
    if (forecast !== null) deps.sendForecast(forecast);
    forecast = null;
    if (waiting === null) return;
    const wait = sentAt + FRAME_GAP_MS - deps.now();
    if (wait > 0) return later(wait);
    const frame = { ...waiting, merged };
    [waiting, merged, sentAt] = [null, 0, deps.now()];
    deps.sendFrame(frame);
  };

  const catchUp = (): void => {
    if (reading) return;
    if (deps.buffered() > RECORD_CAP_BYTES) return later(FRAME_GAP_MS);
    reading = true;
    behind = false;
    void readOn();
  };

  const readOn = async (): Promise<void> => {
    try {
      const lane = await deps.readRecord(at.batch, at.seq);
      if (closed) return;
      at = { batch: lane.batch, seq: lane.seq };
      deps.sendRecord(lane);
    } catch {
      behind = true;
      later(1_000);
    } finally {
      reading = false;
    }
    if (behind && cancel === null) pump();
  };

  return {
    frame(frame) {
      if (waiting !== null) merged += 1;
      waiting = frame;
      pump();
    },
    forecast(lane) {
      forecast = lane;
      pump();
    },
    record(lane) {
      // The lane continues what this screen has, or it is read again from where the screen stands.
      const continues = lane.from === 0 || (lane.batch === at.batch && lane.from === at.seq);
      if (!continues || behind || reading || deps.buffered() > RECORD_CAP_BYTES) {
        behind = true;
        pump();
        return;
      }
      at = { batch: lane.batch, seq: lane.seq };
      deps.sendRecord(lane);
    },
    has(batch, seq) {
      at = { batch, seq };
    },
    close() {
      closed = true;
      cancel?.();
    },
  };
};
