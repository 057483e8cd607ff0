import sharp from 'sharp';

/** Longest side of a kept picture, pixels: enough to print it at the width of a page. */
const LONGEST_SIDE = 1600;
const QUALITY = 82;
/** A picture that claims more pixels than any camera has is not unpacked. */
const MOST_PIXELS = 120_000_000;

// One thread and nothing remembered: readings of the scale go on beside it.
sharp.concurrency(1);
sharp.cache(false);

/** `not-a-picture`: none of the kinds a camera or a screen makes. `heic`: one this machine cannot unpack. `broken`: it ends too soon, or is damaged. */
export type PhotoFault = 'not-a-picture' | 'heic' | 'broken';

export type Shrunk = { readonly ok: true; readonly bytes: Uint8Array } | { readonly ok: false; readonly fault: PhotoFault };

const ascii = (bytes: Uint8Array, from: number, to: number): string => Buffer.from(bytes.subarray(from, to)).toString('latin1');

/** By its first bytes, whatever it calls itself: drawings and documents that could fetch or run something are never unpacked. */
const faultOf = (bytes: Uint8Array): PhotoFault | null => {
  if (bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff) return null;
  if (ascii(bytes, 0, 8) === '\u0089PNG\r\n\u001a\n') return null;
  if (ascii(bytes, 0, 4) === 'RIFF' && ascii(bytes, 8, 12) === 'WEBP') return null;
  return ascii(bytes, 4, 8) === 'ftyp' && /hei|mif1|msf1|hev/.test(ascii(bytes, 8, 24)) ? 'heic' : 'not-a-picture';
};

/** Upright, no larger than needed, JPEG, and without a word of what the camera wrote: no place, no name, no time. */
export const shrink = async (bytes: Uint8Array): Promise<Shrunk> => {
  const fault = faultOf(bytes);
  if (fault !== null) return { ok: false, fault };
  try {
    const made = await sharp(bytes, { failOn: 'error', limitInputPixels: MOST_PIXELS })
      .autoOrient()
      .resize({ width: LONGEST_SIDE, height: LONGEST_SIDE, fit: 'inside', withoutEnlargement: true })
      .flatten({ background: '#fff' })
      .jpeg({ quality: QUALITY })
      .toBuffer();
    return { ok: true, bytes: new Uint8Array(made) };
  } catch {
    return { ok: false, fault: 'broken' };
  }
};
