import { createPrivateKey, createPublicKey, generateKeyPairSync, sign } from 'node:crypto';
import type { KeyObject } from 'node:crypto';
import { chmodSync, closeSync, fsyncSync, openSync, readFileSync, renameSync, rmSync, statSync, writeSync } from 'node:fs';
import { dirname } from 'node:path';
import { codeOf } from '../store/problem';

/** Signs the heads of one record. Lies beside it, and goes into no copy, no archive and no answer. */
export interface RecordKey {
  /** Ed25519, 32 bytes. */
  readonly publicKey: Uint8Array;
  sign(text: Uint8Array): Uint8Array;
  /** Others could read it until now. */
  readonly wasOpen: boolean;
}

/** For this user alone. */
const MODE = 0o600;

/** Reads the key, and makes it when there is none. Throws when one is there that cannot be read: it is never replaced. */
export const openKey = (file: string): RecordKey => {
  const pem = readPem(file) ?? makeKey(file);
  const key = createPrivateKey(pem);
  if (key.asymmetricKeyType !== 'ed25519') throw new Error(`${file} holds another kind of key`);
  const wasOpen = (statSync(file).mode & 0o077) !== 0;
  if (wasOpen) chmodSync(file, MODE);
  return { publicKey: rawOf(key), sign: (text) => new Uint8Array(sign(null, text, key)), wasOpen };
};

const readPem = (file: string): string | null => {
  try {
    return readFileSync(file, 'utf8');
  } catch (cause) {
    if (codeOf(cause) === 'ENOENT') return null;
    throw cause;
  }
};

/** Put there whole: half a key would be one that can never be read. */
const makeKey = (file: string): string => {
  const pem = generateKeyPairSync('ed25519').privateKey.export({ type: 'pkcs8', format: 'pem' }).toString();
  const fresh = `${file}.new`;
  rmSync(fresh, { force: true });
  const fd = openSync(fresh, 'wx', MODE);
  try {
    writeSync(fd, pem);
    fsyncSync(fd);
  } finally {
    closeSync(fd);
  }
  renameSync(fresh, file);
  const folder = openSync(dirname(file), 'r');
  try {
    fsyncSync(folder);
  } finally {
    closeSync(folder);
  }
  return pem;
};

const rawOf = (key: KeyObject): Uint8Array => {
  const { x = '' } = createPublicKey(key).export({ format: 'jwk' });
  return new Uint8Array(Buffer.from(x, 'base64url'));
};
