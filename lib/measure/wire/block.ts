/** Bytes of one block; a frame in it may be held for as long as somebody keeps its reading. */
const SIZE = 16_384;

/**
 * The wire's own copy of what arrived. Bytes are only ever appended, so a frame split over chunks lies in one piece and a view of a
 * frame stays what it was. A full block is left to those who hold views of it, and only the frame under way moves to the next.
 */
export class Block {
  bytes = new Uint8Array(SIZE);
  private buffer = this.bytes.buffer;
  /** Where the frame under way, or whatever is dropped, begins. */
  start = 0;
  /** Behind the last byte that arrived. */
  end = 0;

  /** Takes as much of `chunk` from `from` on as there is room for; returns where the rest begins. */
  append(chunk: Uint8Array, from: number): number {
    if (this.end === SIZE) this.renew();
    const rest = chunk.length - from;
    const room = SIZE - this.end;
    if (rest <= room) {
      this.bytes.set(from === 0 ? chunk : chunk.subarray(from), this.end);
      this.end += rest;
      return chunk.length;
    }
    this.bytes.set(chunk.subarray(from, from + room), this.end);
    this.end = SIZE;
    return from + room;
  }

  view(from: number, to: number): Uint8Array {
    return new Uint8Array(this.buffer, from, to - from);
  }

  private renew(): void {
    const next = new Uint8Array(SIZE);
    next.set(this.bytes.subarray(this.start, this.end));
    this.bytes = next;
    this.buffer = next.buffer;
    this.end -= this.start;
    this.start = 0;
  }
}
