import type { InstrumentId } from '#lib/units/id';
import type { Freshness, Motion, ProbeUse, Range } from '#lib/measure/reading';
import type { LinkFailure, LinkPhase, ScaleRole } from '#lib/measure/instrument';
import type { BarsCue } from '#lib/bench/bars/types';
import type { AlarmCue, BenchCue } from '#lib/bench/cue';

/**
 * Newest wins; merged per screen; never stored as truth. A value that is not fresh is `null` here already: the page never
 * gets a number it would have to hide.
 */
export interface LiveFrame {
  readonly boot: string;
  /** Per boot, rising by one for every frame the server made; a gap is what was merged away. */
  readonly n: number;
  /** Frames merged into this one for this screen. */
  readonly merged: number;
  /** Server monotonic ms when the frame was made. */
  readonly at: number;
  readonly scales: readonly LiveScale[];
  readonly probes: readonly LiveProbe[];
  readonly cue: BenchCue;
  readonly alarms: readonly AlarmCue[];
  /** While bars are weighed on this bench. */
  readonly bars?: BarsCue;
}

export interface LiveScale {
  readonly id: InstrumentId;
  readonly role: ScaleRole;
  readonly name: string;
  readonly link: LinkPhase;
  /** Why the link is not live; `null` while it is, or when nothing is known of it. */
  readonly failure: LinkFailure | null;
  readonly freshness: Freshness;
  /** ms since the newest reading arrived; `null` before the first. */
  readonly age: number | null;
  /** Milligrams gross; `null` unless fresh and in range. */
  readonly gross: number | null;
  readonly motion: Motion;
  readonly range: Range;
  readonly unit: string | null;
  readonly division: number | null;
  /** Last good value, to be shown as "last 412.6 g, 9 s ago" only. */
  readonly last: { readonly gross: number; readonly age: number } | null;
  readonly suspect: string | null;
  readonly nature: 'serial' | 'pty' | 'simulated' | null;
  readonly checked: boolean;
}

export interface LiveProbe {
  readonly use: ProbeUse;
  readonly name: string;
  readonly link: LinkPhase;
  readonly freshness: Freshness;
  readonly age: number | null;
  /** Thousandths of a degree; `null` unless fresh and not suspect. */
  readonly value: number | null;
  readonly suspect: string | null;
  readonly last: { readonly value: number; readonly age: number } | null;
  /** Thousandths of a kelvin that its check adds to what it shows, in `value` already; `null`: it was never checked. */
  readonly correction: number | null;
}

/** Once a second even when nothing else moves: a page that misses three is blank on its own clock. */
export interface Beat {
  readonly boot: string;
  readonly n: number;
  /** Server monotonic ms, for the expiry of intents. */
  readonly at: number;
  readonly ages: Readonly<Record<string, number | null>>;
}
