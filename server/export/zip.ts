import { createReadStream } from 'node:fs';
import { PassThrough, Readable } from 'node:stream';
import { finished } from 'node:stream/promises';
import { setImmediate } from 'node:timers/promises';
import { ZipFile } from 'yazl';

/** What goes into a zip that is sent while it is made. Each promise holds until the entry was taken, as fast as the reader reads. */
export interface Filling {
  /** Text and tables: packed, off the bench's thread. */
  readonly pack: (name: string, what: string) => Promise<void>;
  /** What is packed already, as it is. */
  readonly lay: (name: string, bytes: Uint8Array) => Promise<void>;
  /** A file from the disk, as it is, of any size. */
  readonly layFile: (name: string, path: string) => Promise<void>;
}

export interface ZipForm {
  readonly made: Date;
  /** The 64-bit form for every entry (APPNOTE.TXT 4.5.3); `false`: for those, and the directory, that need it. */
  readonly wide: boolean;
}

/**
 * A zip as a stream. `fill` puts its entries in one after the other; `after` runs when it has been sent, has failed or was given up, and
 * before whoever reads it hears of that. What breaks off has no directory at its end, so nobody can take a part for the whole.
 */
export const zipOf = ({ made, wide }: ZipForm, fill: (zip: Filling) => Promise<void>, after: () => void): ReadableStream<Uint8Array> => {
  const zip = new ZipFile();
  const out = new PassThrough();
  const gone = new AbortController();
  zip.outputStream.pipe(out);
  zip.on('error', (error: Error) => out.destroy(error));
  out.on('close', () => gone.abort());
  // Whoever reads hears of it, though they begin to read only later.
  out.on('error', () => undefined);
  const add = async (name: string, from: Readable, compress: boolean): Promise<void> => {
    try {
      gone.signal.throwIfAborted();
      zip.addReadStream(from, name, { mtime: made, compress, forceZip64Format: wide });
      await finished(from, { signal: gone.signal });
      // The bench comes first: between two entries whatever waits has its turn.
      await setImmediate();
    } finally {
      from.destroy();
    }
  };
  const filled = fill({
    pack: (name, what) => add(name, whole(Buffer.from(what)), true),
    lay: (name, bytes) => add(name, whole(bytes), false),
    layFile: (name, path) => add(name, createReadStream(path, { highWaterMark: CHUNK }), false),
  })
    .then(() => zip.end({ forceZip64Format: wide, comment: '' }))
    .catch((error: unknown) => void out.destroy(error instanceof Error ? error : new Error(String(error))));
  const done = filled.finally(after);
  const pieces = out[Symbol.asyncIterator]() as AsyncIterableIterator<Uint8Array>;
  return new ReadableStream<Uint8Array>({
    async pull(controller) {
      const next = await pieces.next().catch(async (error: unknown) => {
        await done;
        throw error;
      });
      if (next.done !== true) return controller.enqueue(next.value);
      await done;
      controller.close();
    },
    async cancel() {
      out.destroy();
      await done;
    },
  });
};

const CHUNK = 256 * 1024;

const whole = (bytes: Uint8Array): Readable => Readable.from([bytes], { objectMode: false });
