import type { WireFault } from '#lib/measure/instrument';
import { FRAME_CAP, type Framer } from './line-framer';

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
export const stxChecksum = (bytes: Uint8Array, from: number, to: number): number => {
  let sum = 0;
  for (let at = from; at < to; at += 1) sum += (bytes[at] as number) & 0x7f;
  return -sum & 0x7f;
};

/**
 * Cuts a stream into frames that start with STX, `frame(bytes, 0, 17)` without the checksum. Inside a frame STX cannot stand, so
 * any STX starts anew and no good frame is lost to a bad one before it.
 *
 * The checksum byte is an option of the instrument and may have any value, STX and CR included. Frames are held back until two
 * in a row have shown the same: a right checksum behind the CR, or the next STX. From then on a checksum is demanded for as long as
 * the port stays open; a stream without one that grows one is learnt anew.
 */
export const createStxFramer = (
  frame: (bytes: Uint8Array, from: number, to: number) => void,
  fault: (fault: WireFault, raw: Uint8Array) => void,
): Framer => {
  /** The frame under way, or bytes that belong to none. */
  const held = new Uint8Array(FRAME_CAP);
  let length = 0;
  let inFrame = false;
  let synced = false;
  let layout: 'learning' | 'plain' | 'checked' = 'learning';
  let votes = 0;
  let votedChecked = false;
  /** An STX behind the CR that would also be the right checksum: the byte behind it tells. */
  let doubtful = false;
  let behindFrame = false;

  const emit = (): void => {
    frame(held, 0, BODY);
    length = 0;
    inFrame = false;
    behindFrame = true;
  };

  const drop = (why: WireFault): void => {
    if (length > 0) fault(why, held.slice(0, length));
    length = 0;
    inFrame = false;
  };

  const stray = (byte: number): void => {
    if (length === FRAME_CAP) drop('too-long');
    held[length] = byte;
    length += 1;
  };

  const start = (): void => {
    if (length > 0) drop(synced ? 'grammar' : 'first-partial');
    synced = true;
    behindFrame = false;
    inFrame = true;
    held[0] = STX;
    length = 1;
  };

  const vote = (checked: boolean): void => {
    votes = checked === votedChecked ? votes + 1 : 1;
    votedChecked = checked;
    if (votes >= AGREE) layout = checked ? 'checked' : 'plain';
  };

  /** The byte behind a whole body, while a checksum is possible. */
  const behindBody = (byte: number): void => {
    const right = byte === stxChecksum(held, 0, BODY);
    if (layout === 'checked') {
      if (right) {
        emit();
        return;
      }
      drop('checksum');
      if (byte === STX) start();
      return;
    }
    if (byte === STX) {
      drop('first-partial');
      if (right) doubtful = true;
      else vote(false);
      start();
      return;
    }
    if (right) vote(true);
    else votes = 0;
    drop(right ? 'first-partial' : 'checksum');
  };

  const inside = (byte: number): void => {
    if (length === BODY) {
      behindBody(byte);
      return;
    }
    if (doubtful) {
      doubtful = false;
      vote(byte === STX);
      if (byte === STX) return;
    }
    if (byte === STX) {
      start();
      return;
    }
    held[length] = byte;
    length += 1;
    // A broken frame is kept up to the next STX, to be one fault and not two.
    if (!fits(byte, length - 1)) inFrame = false;
    else if (length === BODY && layout === 'plain') emit();
  };

  const outside = (byte: number): void => {
    if (byte === STX) {
      start();
      return;
    }
    // A right checksum behind a frame that should have none: perhaps the instrument was set to send them. `held` is still that frame.
    if (layout === 'plain' && behindFrame && byte === stxChecksum(held, 0, BODY)) {
      layout = 'learning';
      votes = 0;
    }
    behindFrame = false;
    stray(byte);
  };

  return {
    push(chunk) {
      for (let at = 0; at < chunk.length; at += 1) {
        const byte = chunk[at] as number;
        if (inFrame) inside(byte);
        else outside(byte);
      }
    },
    cut() {
      if (length > 0) drop('idle-cut');
      doubtful = false;
      behindFrame = false;
    },
  };
};

/** What may stand at each place of the body; digits are the decoder's to judge, so that a wrong one is a fault with its own name. */
const fits = (byte: number, at: number): boolean => (at === BODY - 1 ? byte === CR : byte >= 0x20 && byte < 0x7f);
