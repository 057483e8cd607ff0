const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';

/** A fresh identity of `length` letters, six random bits each. `getRandomValues` is there on plain-http pages, `randomUUID` is not. */
export const freshId = (length = 22): string =>
  Array.from(crypto.getRandomValues(new Uint8Array(length)), (byte) => ALPHABET[byte & 63]).join('');
