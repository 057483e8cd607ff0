import { setImmediate } from 'node:timers/promises';
import { Zip, ZipDeflate } from 'fflate';
import type { Parts } from './gather';

/** The parts as one zip file, whole in memory: it is answered at once or not at all. Between two parts the bench has its turn. */
export const packed = async (parts: Parts, made: Date): Promise<Uint8Array<ArrayBuffer>> => {
  const chunks: Uint8Array[] = [];
  let failed: Error | null = null;
  const zip = new Zip((error, chunk) => {
    if (error === null) chunks.push(chunk);
    else failed = error;
  });
  for (const [name, bytes] of parts) {
    const entry = new ZipDeflate(name, { level: 6 });
    entry.mtime = made;
    zip.add(entry);
    entry.push(bytes, true);
    await setImmediate();
  }
  zip.end();
  if (failed !== null) throw failed;
  return new Uint8Array(Buffer.concat(chunks));
};
