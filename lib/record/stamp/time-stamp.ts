import { bytesToHex, hexToBytes } from '@noble/hashes/utils.js';
import { encoded, inside, TAG, unsigned, valuesIn } from './der';
import type { Value } from './der';

/**
 * A time stamp of RFC 3161: an authority elsewhere states that it saw a hash at a time. What it signed is checked by whoever has its
 * certificate (`openssl ts -verify`); here only that the answer is about what was asked.
 */

/** 2.16.840.1.101.3.4.2.1, SHA-256 (RFC 5754). */
const SHA256 = hexToBytes('608648016503040201');
/** 1.2.840.113549.1.7.2, signed data (RFC 5652). */
const SIGNED_DATA = '2a864886f70d010702';
/** 1.2.840.113549.1.9.16.1.4, what a time stamp states (RFC 3161). */
const TST_INFO = '2a864886f70d0109100104';

/** The request for a SHA-256 (hex), with a number (hex) that its answer must repeat; asks for the certificate as well. */
export const stampRequest = (sha256: string, nonce: string): Uint8Array =>
  encoded(
    TAG.sequence,
    encoded(TAG.integer, Uint8Array.of(1)),
    encoded(TAG.sequence, encoded(TAG.sequence, encoded(TAG.object, SHA256), encoded(TAG.none)), encoded(TAG.octets, hexToBytes(sha256))),
    encoded(TAG.integer, unsigned(hexToBytes(nonce))),
    encoded(TAG.boolean, Uint8Array.of(0xff)),
  );

/** What an answer says: when by the authority's clock (ISO 8601, UTC), or why it is none to keep. */
export type Stamped =
  | { readonly ok: true; readonly at: string }
  /** `refused`: the authority gave none. `unreadable`: no such answer. `other`: it is about another hash or another request. */
  | { readonly ok: false; readonly why: 'refused' | 'unreadable' | 'other' };

/** Reads the answer (TimeStampResp, DER) to a request for `sha256` with `nonce`. */
export const readStamp = (answer: Uint8Array, sha256: string, nonce: string): Stamped => {
  const outer = valuesIn(answer);
  const [status, token] = (outer?.length === 1 ? inside(outer[0], TAG.sequence) : null) ?? [];
  const code = inside(status, TAG.sequence)?.[0];
  if (code === undefined || code.tag !== TAG.integer) return { ok: false, why: 'unreadable' };
  // 0: granted; 1: granted with changes, which the two comparisons below judge.
  if (code.content.length !== 1 || (code.content[0] ?? 9) > 1 || token === undefined) return { ok: false, why: 'refused' };
  const said = statementOf(token);
  if (said === null) return { ok: false, why: 'unreadable' };
  const asked = bytesToHex(unsigned(hexToBytes(nonce)));
  return said.sha256 === sha256 && said.nonce === asked ? { ok: true, at: said.at } : { ok: false, why: 'other' };
};

interface Statement {
  readonly sha256: string;
  readonly nonce: string | null;
  readonly at: string;
}

const statementOf = (token: Value): Statement | null => {
  const [kind, wrapped] = inside(token, TAG.sequence) ?? [];
  const signed = inside(inside(wrapped, TAG.explicit0)?.[0], TAG.sequence);
  const [innerKind, innerWrapped] = inside(signed?.[2], TAG.sequence) ?? [];
  if (!isObject(kind, SIGNED_DATA) || !isObject(innerKind, TST_INFO)) return null;
  const info = inside(inside(innerWrapped, TAG.explicit0)?.[0], TAG.octets)?.[0];
  const parts = inside(info, TAG.sequence);
  const [, , imprint, , time, ...rest] = parts ?? [];
  const hash = inside(imprint, TAG.sequence)?.[1];
  const at = time?.tag === TAG.time ? isoOf(new TextDecoder().decode(time.content)) : null;
  if (hash === undefined || hash.tag !== TAG.octets || at === null) return null;
  const nonce = rest.find(({ tag }) => tag === TAG.integer);
  return { sha256: bytesToHex(hash.content), nonce: nonce === undefined ? null : bytesToHex(nonce.content), at };
};

const isObject = (value: Value | undefined, hex: string): boolean => value?.tag === TAG.object && bytesToHex(value.content) === hex;

const TIME = /^(\d{4})(\d\d)(\d\d)(\d\d)(\d\d)(\d\d)(?:\.\d+)?Z$/;

const isoOf = (text: string): string | null => {
  const found = TIME.exec(text);
  if (found === null) return null;
  const [, year, month, day, hour, minute, second] = found;
  return `${year}-${month}-${day}T${hour}:${minute}:${second}Z`;
};
