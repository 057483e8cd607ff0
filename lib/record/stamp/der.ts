import { concatBytes } from '@noble/hashes/utils.js';

/** As much of the distinguished encoding rules (ITU-T X.690) as a time-stamp request and its answer need. */

export const TAG = {
  boolean: 0x01,
  integer: 0x02,
  octets: 0x04,
  none: 0x05,
  object: 0x06,
  time: 0x18,
  sequence: 0x30,
  explicit0: 0xa0,
} as const;

/** One value: its tag, its content, and its own bytes with both. */
export interface Value {
  readonly tag: number;
  readonly content: Uint8Array;
  readonly whole: Uint8Array;
}

/** A value with its tag and length in front. */
export const encoded = (tag: number, ...content: readonly Uint8Array[]): Uint8Array => {
  const inner = concatBytes(...content);
  return concatBytes(Uint8Array.of(tag), lengthOf(inner.length), inner);
};

const lengthOf = (length: number): Uint8Array => {
  if (length < 0x80) return Uint8Array.of(length);
  const bytes: number[] = [];
  for (let rest = length; rest > 0; rest = Math.floor(rest / 256)) bytes.unshift(rest % 256);
  return Uint8Array.of(0x80 + bytes.length, ...bytes);
};

/** Bytes of a whole number that is not negative: none too many in front, and one zero where it would read as negative. */
export const unsigned = (bytes: Uint8Array): Uint8Array => {
  const first = bytes.findIndex((byte) => byte !== 0);
  if (first < 0) return Uint8Array.of(0);
  const cut = bytes.subarray(first);
  return (cut[0] ?? 0) < 0x80 ? cut : concatBytes(Uint8Array.of(0), cut);
};

/** The values one after another in some bytes; `null` when these are no such bytes. */
export const valuesIn = (bytes: Uint8Array): readonly Value[] | null => {
  const found: Value[] = [];
  for (let at = 0; at < bytes.length;) {
    const value = valueAt(bytes, at);
    if (value === null) return null;
    found.push(value);
    at += value.whole.length;
  }
  return found;
};

/** Lengths longer than this are no answer of ours. */
const LENGTH_BYTES = 4;

const valueAt = (bytes: Uint8Array, at: number): Value | null => {
  const [tag, first] = [bytes[at], bytes[at + 1]];
  // Tags of more than one byte, and lengths left open, do not come up here.
  if (tag === undefined || first === undefined || (tag & 0x1f) === 0x1f || first === 0x80) return null;
  const more = first < 0x80 ? 0 : first - 0x80;
  if (more > LENGTH_BYTES) return null;
  const length = more === 0 ? first : [...bytes.subarray(at + 2, at + 2 + more)].reduce((sum, byte) => sum * 256 + byte, 0);
  const from = at + 2 + more;
  return from + length > bytes.length
    ? null
    : { tag, content: bytes.subarray(from, from + length), whole: bytes.subarray(at, from + length) };
};

/** The values inside one of a tag; `null` when it is another, or not there. */
export const inside = (value: Value | undefined, tag: number): readonly Value[] | null =>
  value === undefined || value.tag !== tag ? null : valuesIn(value.content);
