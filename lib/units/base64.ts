const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** Bytes as base64 text (RFC 4648, section 4): a raw frame in an entry, a link or a signature in a note. */
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

/** Bytes of base64 text with its padding; `null` when it is none, or not the one text its bytes have. */
export const fromBase64 = (text: string): Uint8Array | null => {
  if (text.length % 4 !== 0) return null;
  const end = text.endsWith('==') ? 2 : text.endsWith('=') ? 1 : 0;
  const bytes: number[] = [];
  for (let index = 0; index < text.length; index += 4) {
    let group = 0;
    for (const letter of text.slice(index, index + 4)) {
      const value = letter === '=' && index + 4 === text.length ? 0 : ALPHABET.indexOf(letter);
      if (value < 0) return null;
      group = (group << 6) | value;
    }
    bytes.push((group >> 16) & 255, (group >> 8) & 255, group & 255);
  }
  const whole = Uint8Array.from(bytes).subarray(0, bytes.length - end);
  return base64(whole) === text ? whole : null;
};
