import type { InstrumentId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import type { ProbeShape, ScaleShape } from './shape';
import type { PortFailure, SerialSettings } from './link/port';
import type { ProbeUse } from './reading';

/** `main` is the big scale, `fine` the small one; every line names the one that can serve it. */
export type ScaleRole = 'main' | 'fine';

/** What a person told us of an instrument, on the command line or in Setup. */
export type InstrumentConfig =
  | {
      readonly kind: 'scale';
      readonly id: InstrumentId;
      readonly role: ScaleRole;
      /** Name read aloud and shown: "big scale". */
      readonly name: string;
      readonly path: string;
      /** `null`: identify by frame. */
      readonly shape: ScaleShape | null;
      readonly serial: SerialSettings;
      /** Capacity limits gross; `null` when nobody has said. */
      readonly capacity: Milligrams | null;
      readonly division: Milligrams | null;
    }
  | {
      readonly kind: 'probe';
      readonly id: InstrumentId;
      readonly name: string;
      readonly path: string;
      /** `null`: the frame's own channel letter says. */
      readonly use: ProbeUse | null;
      readonly shape: ProbeShape | null;
      readonly serial: SerialSettings;
    };

/** Phases of the one connection state machine. `live` = frames of the bound shape arrive. */
export type LinkPhase = 'closed' | 'opening' | 'identifying' | 'live' | 'silent' | 'waiting';

/** Faults counted by name since boot and shown to the person. Kept in one table so that a new one must be named and explained. */
export type WireFault =
  | 'too-long' // no line end within the cap: wrong baud or parity is likely
  | 'first-partial' // the frame under way when the port opened
  | 'idle-cut' // a frame cut short by silence
  | 'grammar' // a whole line that is no frame of the shape
  | 'layout' // a whole frame whose last digit or unit is not where the others have it: bytes were lost, or the unit key was pressed
  | 'unknown-unit'
  | 'checksum'
  | 'bad-number'
  | 'not-ascii'
  | 'declined' // the instrument answered that it cannot state a weight just now
  | 'other-channel' // a probe line for another vessel than this probe was given, or for none
  | 'stall-discard'; // arrived in a burst after the server itself stood still

/**
 * Why no reading of this instrument comes. `stranger`: good frames come, but of another shape, kind or channel than belongs on this
 * port; `unreadable`: bytes come that no shape makes sense of, so speed or parity is likely wrong.
 */
export type LinkFailure = PortFailure | 'lost' | 'silent' | 'stranger' | 'unreadable';

export interface LinkStatus {
  readonly instrument: InstrumentId;
  readonly phase: LinkPhase;
  /** Set from a failed open, a loss or a silence until the next reading, through every retry. */
  readonly failure: LinkFailure | null;
  /** The system's words, for the Instruments page. */
  readonly detail: string;
  readonly shape: ScaleShape | ProbeShape | null;
  readonly nature: 'serial' | 'pty' | 'simulated' | null;
  /** Losses in the last hour: a motor or an induction hob resets USB. */
  readonly lossesLastHour: number;
  readonly retryInMs: number | null;
  readonly faults: Readonly<Partial<Record<WireFault, number>>>;
  readonly readings: number;
}
