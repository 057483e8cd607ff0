import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, concatBytes, hexToBytes, utf8ToBytes } from '@noble/hashes/utils.js';
import { base64, fromBase64 } from '#lib/units/base64';
import type { Head } from './seal';

/**
 * A head as a checkpoint (https://c2sp.org/tlog-checkpoint): whose journal, how many lines, and the newest link. That document's third
 * line is the root of a Merkle tree; ours is the link of a plain chain, so that whoever checks it needs the leaves between two heads.
 */
export interface Checkpoint extends Head {
  /** Which journal of which record: no spaces, no plus. */
  readonly origin: string;
}

/** A checkpoint as a signed note (https://c2sp.org/signed-note): its text, and the signatures below it. */
export interface Note {
  readonly checkpoint: Checkpoint;
  /** What is signed: the text with its last newline. */
  readonly text: string;
  readonly signatures: readonly { readonly name: string; readonly keyId: string; readonly signature: Uint8Array }[];
}

/** Ed25519, in a key's id and in its text form. */
const ED25519 = 0x01;
const KEY_BYTES = 32;
const ID_BYTES = 4;
const DASH = '\u2014';
/** More signatures than anybody makes. */
const MOST_SIGNATURES = 16;

export const checkpointText = ({ origin, seq, link }: Checkpoint): string => `${origin}\n${seq}\n${base64(hexToBytes(link))}\n`;

/** The four bytes that name a key in a signature, hex: SHA-256 of name, newline, 0x01 and the public key (32 bytes), cut. */
export const keyIdOf = (name: string, publicKey: Uint8Array): string =>
  bytesToHex(sha256(concatBytes(utf8ToBytes(`${name}\n`), Uint8Array.of(ED25519), publicKey)).subarray(0, ID_BYTES));

/** A public key as it is handed on: name, id and key in one line. */
export const keyLine = (name: string, publicKey: Uint8Array): string =>
  `${name}+${keyIdOf(name, publicKey)}+${base64(concatBytes(Uint8Array.of(ED25519), publicKey))}`;

/** The other way; `null` when the line is none, or its id is not that of its key. */
export const keyOfLine = (line: string): { readonly name: string; readonly publicKey: Uint8Array } | null => {
  const [name = '', id = '', encoded = '', ...more] = line.trim().split('+');
  // Base64 has a plus of its own.
  const bytes = fromBase64([encoded, ...more].join('+'));
  if (bytes === null || bytes.length !== KEY_BYTES + 1 || bytes[0] !== ED25519) return null;
  const publicKey = bytes.slice(1);
  return keyIdOf(name, publicKey) === id ? { name, publicKey } : null;
};

/** The whole note of a checkpoint, signed under the name of its origin. */
export const signedNote = (checkpoint: Checkpoint, publicKey: Uint8Array, sign: (text: Uint8Array) => Uint8Array): string => {
  const text = checkpointText(checkpoint);
  const signature = concatBytes(hexToBytes(keyIdOf(checkpoint.origin, publicKey)), sign(utf8ToBytes(text)));
  return `${text}\n${DASH} ${checkpoint.origin} ${base64(signature)}\n`;
};

const CHECKPOINT = /^([^\s+]+)\n(0|[1-9]\d{0,15})\n([A-Za-z0-9+/]{43}=)\n$/;
const SIGNATURE = new RegExp(`^${DASH} ([^\\s+]+) ([A-Za-z0-9+/]+={0,2})$`);

/** Reads a note of three lines of text; `null` when it is none. Says nothing yet about its signatures. */
export const readNote = (note: string): Note | null => {
  const gap = note.lastIndexOf('\n\n');
  if (gap < 0 || !note.endsWith('\n')) return null;
  const text = note.slice(0, gap + 1);
  const checkpoint = readCheckpoint(text);
  const signatures = note
    .slice(gap + 2, -1)
    .split('\n')
    .map(readSignature);
  if (checkpoint === null || signatures.length > MOST_SIGNATURES || signatures.includes(null)) return null;
  return { checkpoint, text, signatures: signatures.filter((one) => one !== null) };
};

/** Reads the text of a checkpoint without signatures, as a printed code holds it. */
export const readCheckpoint = (text: string): Checkpoint | null => {
  const [, origin = '', size = '', encoded = ''] = CHECKPOINT.exec(text) ?? [];
  const link = fromBase64(encoded);
  return link === null || link.length !== KEY_BYTES || !Number.isSafeInteger(Number(size))
    ? null
    : { origin, seq: Number(size), link: bytesToHex(link) };
};

const readSignature = (line: string): Note['signatures'][number] | null => {
  const [, name = '', encoded = ''] = SIGNATURE.exec(line) ?? [];
  const bytes = fromBase64(encoded);
  if (bytes === null || bytes.length <= ID_BYTES) return null;
  return { name, keyId: bytesToHex(bytes.subarray(0, ID_BYTES)), signature: bytes.slice(ID_BYTES) };
};

/** Ed25519 (RFC 8032) as the platform has it. */
export type Ed25519 = (publicKey: Uint8Array, text: Uint8Array, signature: Uint8Array) => boolean;

/** Whether a note is signed by this key under the name of its own origin. Signatures of other keys are passed over, as the document asks. */
export const isSignedBy = (note: Note, publicKey: Uint8Array, ed25519: Ed25519): boolean => {
  const { origin } = note.checkpoint;
  const keyId = keyIdOf(origin, publicKey);
  const own = note.signatures.filter((one) => one.name === origin && one.keyId === keyId);
  return own.length > 0 && own.every(({ signature }) => ed25519(publicKey, utf8ToBytes(note.text), signature));
};
