import type { Realm } from '#lib/work/batch/index';
import type { ForecastLane } from './forecast';
import type { BenchIntent, IntentAnswer } from './intent';
import type { Beat, LiveFrame } from './live';

export const PROTOCOL_VERSION = 1;

export interface Hello {
  readonly boot: string;
  readonly protocol: number;
  readonly build: string;
  readonly bench: string;
  readonly realm: Realm;
  /** This screen's standing: `watcher` screens elsewhere than this machine until opened with the one-time code. */
  readonly role: 'maker' | 'watcher';
  readonly screen: string;
  readonly lease: LeaseView;
  /** Lines of the armed batch as stored, in order, so that the page folds what the server folded. Empty without a batch. */
  readonly batch: RecordLane;
  readonly live: LiveFrame | null;
  /** `null` before the first look at the temperatures. */
  readonly forecast: ForecastLane | null;
  readonly at: number;
}

/**
 * What a screen says of itself when it connects (`auth` of the socket), all optional: `screen` is a secret of 16 to 64 letters that the
 * page makes once and keeps while it lives, so that it is the same screen after a reconnect; `token` is what `pair` returned.
 */
export interface ScreenAuth {
  readonly screen?: string;
  readonly token?: string;
}

/**
 * Ordered and lossless: `seq` of the journal's newest line included. Lines are RFC 8785 texts exactly as stored.
 * `from` 0 replaces whatever the page has; otherwise the lines follow `seq` = `from` of the same batch, and a page that stands
 * elsewhere asks `resume`. `from` −1 answers a `resume` that could not be read: it says nothing.
 */
export interface RecordLane {
  readonly batch: string | null;
  readonly from: number;
  readonly seq: number;
  readonly lines: readonly string[];
}

/** One control lease per bench, renewed by its page's heartbeat. */
export interface LeaseView {
  readonly holder: string | null;
  readonly mine: boolean;
  /** How the holder is called on another screen: "tablet at 10:42". */
  readonly label: string | null;
  readonly lostForMs: number | null;
}

export interface ServerToScreen {
  hello: (hello: Hello) => void;
  live: (frame: LiveFrame) => void;
  /** Replaces whatever forecast the page has. */
  forecast: (lane: ForecastLane) => void;
  record: (lane: RecordLane) => void;
  beat: (beat: Beat) => void;
  lease: (lease: LeaseView) => void;
}

export interface PairAnswer {
  readonly ok: boolean;
  readonly waitMs: number;
  readonly token?: string;
}

export type Ack<T> = (answer: T) => void;

/** Every message is parsed by schema; an answer is always given. */
export interface ScreenToServer {
  intent: (intent: unknown, ack: Ack<IntentAnswer>) => void;
  /** `seq`: resume the record lane after this journal sequence number. */
  resume: (ask: unknown, ack: Ack<RecordLane>) => void;
  lease: (ask: unknown, ack: Ack<LeaseView>) => void;
  /** `token`: to be kept by the page and sent as `auth.token` and, over HTTP, as `Authorization: Bearer`. */
  pair: (ask: unknown, ack: Ack<PairAnswer>) => void;
  /** Practice only: steer the simulated scene. */
  scene: (act: unknown, ack: Ack<{ ok: boolean; why: string | null }>) => void;
  /** The page is alive and visible; renews the lease, returns nothing. */
  alive: (beat: unknown) => void;
}
export type { BenchIntent };
