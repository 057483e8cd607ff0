import sharp from 'sharp';
import { pictureKey, PICTURES } from '#hardware/practice/history/half-year/pictures';
import type { KeptPictures } from '#hardware/practice/history/half-year/pictures';
import { MAKER } from '../maker';
import { shrink } from '../photos/shrink';
import type { Store } from '../store/store';

/** The half-year's pictures, kept as a camera's are: unpacked, written anew as JPEG, stored by their hash before anything names them. */
export const keepPictures = async (store: Store): Promise<KeptPictures> => {
  const kept = new Map<string, string>();
  for (const picture of PICTURES) {
    const taken = await sharp(Buffer.from(picture.svg)).png({ compressionLevel: 1 }).toBuffer();
    const shrunk = await shrink(new Uint8Array(taken));
    if (!shrunk.ok) throw new Error(`the picture ${pictureKey(picture)} is none: ${shrunk.fault}`);
    const file = { name: 'photo.jpg', type: 'image/jpeg', bytes: shrunk.bytes };
    kept.set(pictureKey(picture), (await store.shelf.keepFile(file, MAKER)).sha256);
  }
  return kept;
};
