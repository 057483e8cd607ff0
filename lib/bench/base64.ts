const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** Bytes as base64 text (RFC 4648, section 4). A raw frame goes into an entry like this. */
export const base64 = (bytes: Uint8Array): string => {
  let text = '';
  for (let index = 0; index < bytes.length; index += 3) {
    const [a = 0, b, c] = bytes.subarray(index, index + 3);
    const group = (a << 16) | ((b ?? 0) << 8) | (c ?? 0);
    const letter = (shift: number): string => ALPHABET.charAt((group >> shift) & 63);
    text += letter(18) + letter(12) + (b === undefined ? '=' : letter(6)) + (c === undefined ? '=' : letter(0));
  }
  return text;
};
