import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, hexToBytes, utf8ToBytes } from '@noble/hashes/utils.js';
import { joinMembers } from './canonical';
import type { Json, JournalLine } from './journal';
import { aroundSalt } from './read-back';

/** Where a journal stands: how many lines, and the link of the newest. Whoever keeps a head elsewhere can prove the lines up to it. */
export interface Head {
  readonly seq: number;
  readonly link: string;
}

/** The head of a journal without lines: its link is 32 zero bytes. */
export const EMPTY: Head = { seq: 0, link: '00'.repeat(32) };

/** Bytes of salt in every line, so that a line that was blotted out cannot be guessed back from its hash. */
export const SALT_BYTES = 16;

/** SHA-256, as hex: of a text's UTF-8 bytes, and of bytes given as hex. */
export interface Sha256 {
  ofText(text: string): string;
  ofHex(hex: string): string;
}

/** Runs anywhere. Where the platform has a faster one, that is handed in instead. */
export const PORTABLE: Sha256 = {
  ofText: (text) => bytesToHex(sha256(utf8ToBytes(text))),
  ofHex: (hex) => bytesToHex(sha256(hexToBytes(hex))),
};

/** SHA-256 of a line's UTF-8 bytes, hex. */
export const leafOf = (text: string, sha: Sha256 = PORTABLE): string => sha.ofText(text);

/** SHA-256 of the previous link (32 bytes) followed by the leaf (32 bytes), hex. */
export const linkOf = (previous: string, leaf: string, sha: Sha256 = PORTABLE): string => sha.ofHex(previous + leaf);

/**
 * The next line of a journal: the value with its salt, as RFC 8785 text, and its hashes.
 * Throws `NotCanonical` when the value is no object, holds what a line may not, or brings a salt of its own.
 */
export const seal = (head: Head, value: Json, salt: Uint8Array, sha: Sha256 = PORTABLE): JournalLine => {
  const { before, after } = aroundSalt(value);
  if (salt.length !== SALT_BYTES) throw new RangeError(`a salt has ${SALT_BYTES} bytes, not ${salt.length}`);
  const text = joinMembers(before, `"salt":"${bytesToHex(salt)}"`, after);
  const leaf = leafOf(text, sha);
  return { seq: head.seq + 1, text, leaf, link: linkOf(head.link, leaf, sha) };
};
