import type { BatchId, BootId, IntentId, PersonId, ScreenId } from '#lib/units/id';
import type { Monotonic } from '#lib/units/time';
import type { BatchState, Realm, Role, Want } from '#lib/work/batch/index';
import type { BenchIntent, IntentAnswer, SceneAct } from '#lib/protocol/intent';
import type { ForecastLane } from '#lib/protocol/forecast';
import type { LeaseView, RecordLane } from '#lib/protocol/lanes';
import type { LiveFrame } from '#lib/protocol/live';

/** Who sends an intent: the server's word, never the screen's. */
export interface Sender {
  readonly screen: ScreenId;
  /** `watcher` may look and silence; a `maker` may besides, while it holds the lease. */
  readonly role: Exclude<Role, 'program'>;
  /** Who acts on it; left out: the unnamed maker. */
  readonly person?: PersonId;
}

/** What may be said of a batch that has ended or is not at the bench. */
export type Afterwards = Extract<Want, { kind: 'note' | 'amend' | 'keep-photo' }>;

export interface BenchListener {
  /** A new frame was made; it replaces every earlier one. */
  frame?(frame: LiveFrame): void;
  /** Where the vessels are going, made anew with each block of readings; it replaces every earlier one. */
  forecast?(lane: ForecastLane): void;
  /** Lines were committed, in order. */
  record?(lane: RecordLane): void;
  /** Somebody took, lost or gave back the lease. */
  lease?(): void;
}

/** One bench while it runs: what screens and the API may ask of it. A change of instruments or realm makes another, with another boot. */
export interface Bench {
  readonly boot: BootId;
  readonly name: string;
  readonly realm: Realm;
  now(): Monotonic;
  /** The newest live frame. */
  frame(): LiveFrame;
  /** The newest forecast; `null` before the first look. */
  forecast(): ForecastLane | null;
  /** Milliseconds since each scale (by its id) and each probe (by its vessel) was heard; `null` before the first reading. */
  ages(): Readonly<Record<string, number | null>>;
  /** The batch at this bench: armed, or the last one until another starts. */
  batch(): BatchState | null;
  /** Lines of that batch after a sequence number; all of them, `from` 0, when the asker has another batch. */
  lane(batch: string | null, after: number): Promise<RecordLane>;
  leaseFor(screen: ScreenId): LeaseView;
  takeLease(screen: ScreenId, label: string): void;
  releaseLease(screen: ScreenId): void;
  /** A page's heartbeat, who acts on it, and whether something on it lies over the weight. */
  alive(screen: ScreenId, visible: boolean, person?: PersonId, covered?: boolean): void;
  /** A page's socket fell. */
  parted(screen: ScreenId): void;
  intent(sender: Sender, intent: BenchIntent): Promise<IntentAnswer>;
  /** What is said of any batch from a page, whoever leads the bench: notes, pictures, and what is put right after the end. */
  afterwards(batch: BatchId, want: Afterwards, by: PersonId, intent: IntentId | null): Promise<IntentAnswer>;
  /** Practice only. */
  scene(act: SceneAct): Promise<{ readonly ok: boolean; readonly why: string | null }>;
  /** Returns the way to stop listening. */
  listen(listener: BenchListener): () => void;
}
