import type { WireFault } from '#lib/measure/instrument';

/** Bytes a frame may have before it is given up. Real frames have under 50. */
export const FRAME_CAP = 4096;

/** Silence inside a frame after which its beginning is given up, ms. A byte at 1200 baud takes 8. */
export const IDLE_CUT_MS = 500;

const LF = 10;
const CR = 13;

export interface Framer {
  push(chunk: Uint8Array): void;
  /** Gives up a frame under way and looks for the next start. */
  cut(): void;
}

/**
 * Cuts a stream into lines, `line(bytes, from, to)` without their CR LF. A line inside one chunk is not copied. Holds at most
 * `FRAME_CAP` bytes. Whatever is unsure where it began (after the open, a cut or an overlong line) is dropped to the next line end.
 */
export const createLineFramer = (
  line: (bytes: Uint8Array, from: number, to: number) => void,
  fault: (fault: WireFault, raw: Uint8Array) => void,
): Framer => {
  const held = new Uint8Array(FRAME_CAP);
  let length = 0;
  /** Why the bytes up to the next line end are dropped; `'said'` when that has been reported. */
  let dropping: WireFault | 'said' | null = 'first-partial';

  const hold = (chunk: Uint8Array, from: number, to: number): void => {
    if (length + to - from > FRAME_CAP) {
      if (dropping !== 'said') fault('too-long', join(chunk, from, from + FRAME_CAP - length));
      dropping = 'said';
      length = 0;
    }
    if (dropping === 'said') return;
    held.set(chunk.subarray(from, to), length);
    length += to - from;
  };

  const join = (chunk: Uint8Array, from: number, to: number): Uint8Array => {
    const whole = new Uint8Array(length + to - from);
    whole.set(held.subarray(0, length));
    whole.set(chunk.subarray(from, to), length);
    return whole;
  };

  /** Takes the piece that ends a line. */
  const end = (chunk: Uint8Array, from: number, to: number): void => {
    if (dropping === null && length === 0 && to - from <= FRAME_CAP) {
      emit(chunk, from, to);
      return;
    }
    hold(chunk, from, to);
    if (dropping === null) emit(held, 0, length);
    else if (dropping !== 'said' && length > 0) fault(dropping, held.slice(0, length));
    dropping = null;
    length = 0;
  };

  const emit = (bytes: Uint8Array, from: number, to: number): void => {
    const last = bytes[to - 1] === CR ? to - 1 : to;
    // A blank line says nothing and is no fault: some instruments send one after each frame.
    if (last > from) line(bytes, from, last);
  };

  return {
    push(chunk) {
      let from = 0;
      for (let at = 0; at < chunk.length; at += 1) {
        if (chunk[at] !== LF) continue;
        end(chunk, from, at);
        from = at + 1;
      }
      if (from < chunk.length) hold(chunk, from, chunk.length);
    },
    cut() {
      if (length === 0) return;
      if (dropping !== 'said') fault('idle-cut', held.slice(0, length));
      length = 0;
      dropping = 'said';
    },
  };
};
