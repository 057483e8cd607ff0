import sharp from 'sharp';
import { pictureKey, PICTURES } from '#hardware/practice/history/half-year/pictures';
import type { KeptPictures } from '#hardware/practice/history/half-year/pictures';
import { MAKER } from '../maker';
import { shrink } from '../photos/shrink';
import type { Store } from '../store/store';

/** The half-year's pictures, kept as a camera's are: unpacked, written anew as JPEG, stored by their hash before anything names them. */
export const keepPictures = async (store: Store): Promise<KeptPictures> => {
  const kept = new Map<string, string>();
  for (const [key, bytes] of await Promise.all(PICTURES.map(taken))) {
    const file = { name: 'photo.jpg', type: 'image/jpeg', bytes };
    kept.set(key, (await store.shelf.keepFile(file, MAKER)).sha256);
  }
  return kept;
};

const taken = async (picture: (typeof PICTURES)[number]): Promise<readonly [string, Uint8Array]> => {
  const key = pictureKey(picture);
  const png = await sharp(Buffer.from(picture.svg)).png({ compressionLevel: 1 }).toBuffer();
  const shrunk = await shrink(new Uint8Array(png));
  if (!shrunk.ok) throw new Error(`the picture ${key} is none: ${shrunk.fault}`);
  return [key, shrunk.bytes];
};
