import { setImmediate } from 'node:timers/promises';
import { Zip, ZipDeflate, ZipPassThrough } from 'fflate';
import { PARTS } from '#lib/record/bundle/layout';
import type { Parts } from './gather';

const CHUNK = 256 * 1024;

/**
 * The parts as one zip file, whole in memory: it is answered at once or not at all. Texts are packed; stored bytes are packed already, or pack
 * badly, and stand as they are. Between two pieces the bench has its turn.
 */
export const packed = async (parts: Parts, made: Date): Promise<Uint8Array<ArrayBuffer>> => {
  const chunks: Uint8Array[] = [];
  let failed: Error | null = null;
  const zip = new Zip((error, chunk) => {
    if (error === null) chunks.push(chunk);
    else failed = error;
  });
  for (const [name, bytes] of parts) {
    const entry = name.startsWith(PARTS.blobs) ? new ZipPassThrough(name) : new ZipDeflate(name, { level: 6 });
    entry.mtime = made;
    zip.add(entry);
    for (let at = 0; at === 0 || at < bytes.length; at += CHUNK) {
      entry.push(bytes.subarray(at, at + CHUNK), at + CHUNK >= bytes.length);
      await setImmediate();
    }
  }
  zip.end();
  if (failed !== null) throw failed;
  return new Uint8Array(Buffer.concat(chunks));
};
