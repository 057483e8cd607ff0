import type { KeptFile, WorkshopShelf } from '../store/shelf';
import type { Store } from '../store/store';

/** What can stand in a file's name everywhere. */
export const safe = (name: string): string => name.replaceAll(/[^\w.-]+/g, '_');

/** Where a kept file lies in an archive: by its hash, as entries name it, and pictures apart from certificates. */
const pathOf = ({ sha256, name, type }: KeptFile): string =>
  name === 'photo.jpg' && type === 'image/jpeg' ? `pictures/${sha256}.jpg` : `files/${sha256}-${safe(name)}`;

/** Where the bytes of a hash lie in an archive; nowhere when they are not kept. */
export const fileIn = ({ shelf }: { readonly shelf: Pick<WorkshopShelf, 'file'> }, sha256: string): string => {
  const kept = shelf.file(sha256);
  return kept === null ? '' : pathOf(kept);
};

/** All files that were kept: pictures, certificates, data sheets, one at a time. */
export async function* keptFiles({
  shelf,
  blobs,
}: Pick<Store, 'shelf' | 'blobs'>): AsyncGenerator<readonly [path: string, bytes: Uint8Array]> {
  for (const kept of shelf.files()) {
    const bytes = await blobs.get(kept.sha256);
    if (bytes !== null) yield [pathOf(kept), bytes];
  }
}
