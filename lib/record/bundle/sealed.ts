import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { isSignedBy, readNote, signedNote } from '../note';
import type { Ed25519 } from '../note';

/** Who seals a bundle: the key that signed the head after it. */
export interface Sealer {
  readonly publicKey: Uint8Array;
  readonly sign: (text: Uint8Array) => Uint8Array;
}

/** `missing`: nobody sealed it. `signature`: another key than that of its head did. `changed`: the sums are not those it was sealed with. */
export type SealFault = 'missing' | 'signature' | 'changed';

/** The name a bundle is sealed under, by the name of its head. */
export const sealOrigin = (head: string): string => `${head}/bundle`;
const hashOf = (sums: string): string => bytesToHex(sha256(utf8ToBytes(sums)));

/**
 * A signed note over the sums of all parts, in the form of a head: whose bundle, how many entries, SHA-256 of the sums. Leaves tell nobody
 * whose they are: without it, whoever has a bundle could pass its newest entries off as another batch's, or write its page anew.
 */
export const sealedNote = (head: string, entries: number, sums: string, sealer: Sealer): string =>
  signedNote({ origin: sealOrigin(head), seq: entries, link: hashOf(sums) }, sealer.publicKey, (text) => sealer.sign(text));

/** Holds the sums against the seal. `head`: origin and key of the head after the bundle. */
export const sealFault = (
  note: string | null,
  sums: string,
  head: { readonly origin: string; readonly publicKey: Uint8Array },
  ed25519: Ed25519,
): SealFault | null => {
  const read = note === null ? null : readNote(note);
  if (read === null) return 'missing';
  if (read.checkpoint.origin !== sealOrigin(head.origin) || !isSignedBy(read, head.publicKey, ed25519)) return 'signature';
  return read.checkpoint.link === hashOf(sums) ? null : 'changed';
};
