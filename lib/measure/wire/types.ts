import type { WireFault } from '#lib/measure/instrument';
import type { Motion, Range, Reading } from '#lib/measure/reading';
import type { Shape } from '#lib/measure/shape';
import type { MassUnit } from '#lib/units/mass';
import type { Monotonic } from '#lib/units/time';

/** Where a wire puts what it finds: every frame is either a reading or a fault with a name; nothing is dropped unsaid. */
export interface WireSink {
  reading(reading: Reading): void;
  /** `raw`: the bytes refused, at most `FRAME_CAP` of them. Like a reading's, a view that never changes of a larger buffer: copy it to store it. */
  fault(fault: WireFault, raw: Uint8Array): void;
}

/**
 * Bytes in, readings out, for one instrument and *one opening* of its port: make a new one after every open, so that no part
 * of a frame survives a close. It is silent until the stream has shown where its frames begin and how they are laid out:
 * line shapes drop everything up to the first line end, `stx-status` the two frames that show whether a checksum follows, and all scale
 * shapes the frame after that, which only shows the layout. A changed unit is believed from the third frame that states it.
 */
export interface Wire {
  /** `at` is the arrival of the chunk, stamped before anything looked at it. How a stream is cut into chunks changes no reading. */
  push(chunk: Uint8Array, at: Monotonic): void;
  /** Tell the time while nothing arrives. Silence inside a frame is only a hint to find the next start anew, never an end of frame. */
  idle(now: Monotonic): void;
}

/** Finds out what an instrument speaks by what it sends; proof before any value shows. */
export interface Identifier {
  /** The shape once `FRAMES_TO_IDENTIFY` readings of it, and none of any other, have come; the same answer from then on. */
  push(chunk: Uint8Array, at: Monotonic): Shape | null;
}

/** What one frame of a scale states. Overwritten frame by frame: a decoder allocates nothing but the text. */
export interface Found {
  text: string;
  negative: boolean;
  /** The digits as one whole number, the point left out. */
  mantissa: number;
  decimals: number;
  /** Last-digit steps the scale counts by: 1, 2 or 5. */
  countBy: number;
  unit: MassUnit | null;
  motion: Motion;
  range: Range;
  weighing: 'gross' | 'net' | 'unstated';
  /** Offset in the frame just behind the last digit; where the digits have fixed places, the number of decimals. */
  place: number;
}

/** Reads the frame `bytes[from, to)` into `found`. `null` when it is a whole good frame, else why not. */
export type Decode = (bytes: Uint8Array, from: number, to: number, found: Found) => WireFault | null;
