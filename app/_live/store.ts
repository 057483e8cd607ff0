import { createStore } from 'zustand/vanilla';
import type { StoreApi } from 'zustand/vanilla';
import type { BatchState, RefusalCode, Realm } from '#lib/work/batch/index';
import type { LeaseView } from '#lib/protocol/lanes';
import type { ForecastLane } from '#lib/protocol/forecast';
import type { LiveFrame } from '#lib/protocol/live';

/** `connecting`: never connected yet. `down`: was connected, trying again. */
export type Link = 'connecting' | 'up' | 'down';

/** What a person is told about a press that came to nothing. One at a time; nothing piles up. */
export interface Notice {
  readonly id: number;
  readonly code: RefusalCode | 'no-answer' | 'scene-refused';
  readonly params: Readonly<Record<string, string | number>>;
}

export interface Standing {
  readonly boot: string;
  readonly bench: string;
  readonly realm: Realm;
  readonly role: 'maker' | 'watcher';
  readonly screen: string;
}

/** Everything a page knows of the bench. Never persisted: a value from yesterday must not come back looking alive. */
export interface LiveState {
  readonly link: Link;
  /** Nothing heard for three seconds on this page's clock, or never anything: all values are blank. */
  readonly stale: boolean;
  readonly standing: Standing | null;
  /** The server speaks a newer protocol than this page: it must be loaded again. */
  readonly outdated: boolean;
  readonly frame: LiveFrame | null;
  /** The newest forecast; to be read through `see.forecast`, which holds it back while everything is blank. */
  readonly forecast: ForecastLane | null;
  readonly lease: LeaseView | null;
  readonly batch: BatchState | null;
  readonly seq: number;
  /** The record holds something this page cannot read: the batch is for looking at only. */
  readonly unreadable: string | null;
  readonly notice: Notice | null;
  /** The one-time code in this page's address was not taken. */
  readonly codeRefused: boolean;
  /** An intent is on its way. */
  readonly sending: boolean;
}

export type LiveStore = StoreApi<LiveState>;

export const createLiveStore = (): LiveStore =>
  createStore<LiveState>(() => ({
    link: 'connecting',
    stale: true,
    standing: null,
    outdated: false,
    frame: null,
    forecast: null,
    lease: null,
    batch: null,
    seq: 0,
    unreadable: null,
    notice: null,
    codeRefused: false,
    sending: false,
  }));
