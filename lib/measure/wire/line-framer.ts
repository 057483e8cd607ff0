import type { WireFault } from '#lib/measure/instrument';
import type { Block } from './block';

/** Bytes a frame may have before it is given up. Real frames have under 50. */
export const FRAME_CAP = 4096;

/** Silence inside a frame after which its beginning is given up, ms. A byte at 1200 baud takes 8. */
export const IDLE_CUT_MS = 500;

const LF = 10;
const CR = 13;

/** Finds frames in a stream it copies into its block. `frame` and `fault` get positions in that block. */
export interface Framer {
  push(chunk: Uint8Array): void;
  /** Gives up a frame under way and looks for the next start. */
  cut(): void;
}

export interface FramerSink {
  frame(from: number, to: number): void;
  fault(fault: WireFault, from: number, to: number): void;
}

/**
 * Cuts a stream into lines without their CR LF. Whatever is unsure where it began (after the open, a cut or an overlong line) is
 * dropped to the next line end.
 */
export class LineFramer implements Framer {
  private readonly block: Block;
  private readonly sink: FramerSink;
  /** Why the bytes up to the next line end are dropped; `'said'` when that has been reported. */
  private dropping: WireFault | 'said' | null = 'first-partial';

  constructor(block: Block, sink: FramerSink) {
    this.block = block;
    this.sink = sink;
  }

  push(chunk: Uint8Array): void {
    let from = 0;
    while (from < chunk.length) {
      const rest = this.block.append(chunk, from);
      this.scan(this.block.end - (rest - from));
      from = rest;
    }
  }

  cut(): void {
    const { block } = this;
    if (block.end > block.start) this.giveUp('idle-cut', block.end);
    block.start = block.end;
  }

  /** Looks at what was appended from `at` on. */
  private scan(from: number): void {
    const { block } = this;
    const { bytes, end } = block;
    for (let at = from; at < end; at += 1) if (bytes[at] === LF) this.end(at);
    if (end - block.start > FRAME_CAP) this.giveUp('too-long', block.start + FRAME_CAP);
    // What is dropped and has been reported need not be kept.
    if (this.dropping === 'said') block.start = end;
  }

  private end(to: number): void {
    const { bytes, start } = this.block;
    if (to - start > FRAME_CAP) this.giveUp('too-long', start + FRAME_CAP);
    if (this.dropping === null) {
      const last = to > start && bytes[to - 1] === CR ? to - 1 : to;
      // A blank line says nothing and is no fault: some instruments send one after each frame.
      if (last > start) this.sink.frame(start, last);
    } else if (this.dropping !== 'said' && to > start) this.sink.fault(this.dropping, start, to);
    this.dropping = null;
    this.block.start = to + 1;
  }

  private giveUp(why: WireFault, to: number): void {
    if (this.dropping !== 'said') this.sink.fault(why, this.block.start, to);
    this.dropping = 'said';
  }
}
