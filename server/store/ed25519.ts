import { createPublicKey, verify } from 'node:crypto';
import type { KeyObject } from 'node:crypto';
import type { Ed25519 } from '#lib/record/note';

const made = new Map<string, KeyObject>();

/** A public key of 32 bytes as the platform takes it. Throws for bytes of another length. */
export const publicKeyOf = (bytes: Uint8Array): KeyObject => {
  const x = Buffer.from(bytes).toString('base64url');
  const known = made.get(x) ?? createPublicKey({ key: { kty: 'OKP', crv: 'Ed25519', x }, format: 'jwk' });
  made.set(x, known);
  return known;
};

/** RFC 8032, by the platform. */
export const ed25519: Ed25519 = (publicKey, text, signature) => {
  try {
    return verify(null, text, publicKeyOf(publicKey), signature);
  } catch {
    return false;
  }
};
