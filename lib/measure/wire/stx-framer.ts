import type { WireFault } from '#lib/measure/instrument';
import type { Block } from './block';
import { FRAME_CAP, type Framer, type FramerSink } from './line-framer';

const STX = 0x02;
const CR = 0x0d;
/** STX, three status bytes, six digits of weight, six of tare, CR. */
const BODY = 17;
/** Whole frames in a row that must agree before the framer believes in a checksum, or in none. */
const AGREE = 2;

/**
 * Two's complement of the sum of bits 0-6 of everything before it, in seven bits.
 * Bit 7 is parity on the lines these instruments are used on and is not part of the sum.
 */
const stxChecksum = (bytes: Uint8Array, from: number, to: number): number => {
  let sum = 0;
  for (let at = from; at < to; at += 1) sum += (bytes[at] as number) & 0x7f;
  return -sum & 0x7f;
};

/** First position from `from` on that is `to` or holds what may not stand before the CR. */
const skipBody = (bytes: Uint8Array, from: number, to: number): number => {
  let at = from;
  while (at < to && isBody(bytes[at] as number)) at += 1;
  return at;
};

/** Status bytes and digits; which digit is the decoder's to judge, so that a wrong one is a fault with its own name. */
const isBody = (byte: number): boolean => byte >= 0x20 && byte <= 0x7e;

/**
 * Cuts a stream into frames that start with STX, without the checksum. Inside a frame STX cannot stand, so any STX starts anew and no
 * good frame is lost to a bad one before it.
 *
 * The checksum byte is an option of the instrument and may have any value, STX and CR included. Frames are held back until two
 * in a row have shown the same: a right checksum behind the CR, or the next STX. From then on a checksum is demanded for as long as
 * the port stays open; a stream without one that grows one is learnt anew.
 */
export class StxFramer implements Framer {
  private readonly block: Block;
  private readonly sink: FramerSink;
  private inFrame = false;
  private synced = false;
  private layout: 'learning' | 'plain' | 'checked' = 'learning';
  private votes = 0;
  private votedChecked = false;
  /** An STX behind the CR that would also be the right checksum: the byte behind it tells. */
  private doubtful = false;
  /** Where the plain frame just told lies, while the byte behind it is still to come; its block may have been left since. */
  private toldBytes: Uint8Array | null = null;
  private toldFrom = 0;

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
    this.drop('idle-cut', this.block.end);
    this.doubtful = false;
    this.toldBytes = null;
  }

  private scan(from: number): void {
    const { bytes, end } = this.block;
    for (let at = from; at < end; at += 1) {
      if (this.inFrame && !this.doubtful) at = skipBody(bytes, at, Math.min(end, this.block.start + BODY - 1));
      if (at === end) return;
      const byte = bytes[at] as number;
      if (this.inFrame) this.inside(byte, at);
      else this.outside(byte, at);
    }
  }

  private inside(byte: number, at: number): void {
    const place = at - this.block.start;
    if (place === BODY) {
      if (this.layout === 'checked') this.checkSum(byte, at);
      else this.learn(byte, at);
      return;
    }
    if (this.doubtful) {
      this.doubtful = false;
      this.vote(byte === STX);
      // The STX before this one was the checksum.
      if (byte === STX) this.block.start = at;
    } else if (byte === STX) this.start(at);
    if (byte === STX) return;
    // A broken frame is kept up to the next STX, to be one fault and not two.
    if (place === BODY - 1 ? byte !== CR : !isBody(byte)) this.inFrame = false;
    else if (place === BODY - 1 && this.layout === 'plain') {
      this.toldBytes = this.block.bytes;
      this.toldFrom = this.block.start;
      this.tell(at + 1);
    }
  }

  /** The byte behind a whole body, when it has to be its checksum. */
  private checkSum(byte: number, at: number): void {
    if (byte === stxChecksum(this.block.bytes, this.block.start, at)) this.tell(at + 1);
    else if (byte === STX) {
      this.drop('checksum', at);
      this.start(at);
    } else this.drop('checksum', at + 1);
  }

  /** The byte behind a whole body, while it is not known whether checksums are sent. */
  private learn(byte: number, at: number): void {
    const right = byte === stxChecksum(this.block.bytes, this.block.start, at);
    if (byte === STX) {
      this.drop('first-partial', at);
      if (right) this.doubtful = true;
      else this.vote(false);
      this.start(at);
      return;
    }
    if (right) this.vote(true);
    else this.votes = 0;
    this.drop(right ? 'first-partial' : 'checksum', at + 1);
  }

  private vote(checked: boolean): void {
    this.votes = checked === this.votedChecked ? this.votes + 1 : 1;
    this.votedChecked = checked;
    if (this.votes >= AGREE) this.layout = checked ? 'checked' : 'plain';
  }

  private outside(byte: number, at: number): void {
    if (byte === STX) {
      this.start(at);
      return;
    }
    // A right checksum behind a frame that should have none: perhaps the instrument was set to send them.
    if (this.toldBytes !== null && byte === stxChecksum(this.toldBytes, this.toldFrom, this.toldFrom + BODY)) {
      this.layout = 'learning';
      this.votes = 0;
    }
    this.toldBytes = null;
    if (at - this.block.start === FRAME_CAP) this.drop('too-long', at);
  }

  private start(at: number): void {
    this.drop(this.synced ? 'grammar' : 'first-partial', at);
    this.synced = true;
    this.inFrame = true;
    this.toldBytes = null;
  }

  private tell(next: number): void {
    this.sink.frame(this.block.start, this.block.start + BODY);
    this.block.start = next;
    this.inFrame = false;
  }

  /** Reports what was gathered up to `to`. */
  private drop(why: WireFault, to: number): void {
    if (to > this.block.start) this.sink.fault(why, this.block.start, to);
    this.block.start = to;
    this.inFrame = false;
  }
}
