import { generateKeyPairSync, sign } from 'node:crypto';

/** A throw-away Ed25519 key. */
export interface TestKey {
  readonly publicKey: Uint8Array;
  sign(text: Uint8Array): Uint8Array;
}

export const testKey = (): TestKey => {
  const { privateKey, publicKey } = generateKeyPairSync('ed25519');
  const raw = new Uint8Array(Buffer.from(publicKey.export({ format: 'jwk' }).x ?? '', 'base64url'));
  return { publicKey: raw, sign: (text) => new Uint8Array(sign(null, text, privateKey)) };
};
