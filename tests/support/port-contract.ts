import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { PortError, type OpenPort, type PortEvents, type PortOpener, type SerialSettings } from '#lib/measure/link/port';
import type { Monotonic } from '#lib/units/time';
import { deferred } from './deferred';

/** What a suite needs of one instrument and of the opener that reaches it. */
export interface PortRig {
  readonly opener: PortOpener;
  readonly path: string;
  /** A path of the same kind with nothing behind it. */
  readonly missingPath: string;
  readonly settings: SerialSettings;
  readonly nature: OpenPort['nature'];
  /** Makes the instrument send at least one byte. */
  provoke(): void | Promise<void>;
  unplug(): void | Promise<void>;
  replug(): void | Promise<void>;
  close(): void | Promise<void>;
}

interface Heard extends PortEvents {
  readonly chunks: { readonly bytes: Uint8Array; readonly at: Monotonic }[];
  readonly ends: ('asked' | 'lost')[];
  /** The next chunk after this call. */
  nextChunk(): Promise<Uint8Array>;
  /** The end, whether it has come or not yet. */
  ended(): Promise<'asked' | 'lost'>;
}

function listener(): Heard {
  const chunks: Heard['chunks'] = [];
  const ends: Heard['ends'] = [];
  const waiting = new Set<(bytes: Uint8Array) => void>();
  const end = deferred<'asked' | 'lost'>();
  return {
    chunks,
    ends,
    data(bytes, at) {
      chunks.push({ bytes, at });
      for (const take of waiting) take(bytes);
      waiting.clear();
    },
    closed(why) {
      ends.push(why);
      end.resolve(why);
    },
    nextChunk: () => new Promise((resolve) => waiting.add(resolve)),
    ended: () => end.promise,
  };
}

const codeOf = (attempt: Promise<unknown>): Promise<unknown> =>
  attempt.then(
    () => 'opened',
    (error: unknown) => (error instanceof PortError ? error.code : error),
  );

/** The promises of `PortOpener` in `lib/measure/link/port.ts`, the same for every implementation. */
export function portContract(name: string, makeRig: () => PortRig | Promise<PortRig>): void {
  describe(`${name} keeps the port contract`, () => {
    let rig: PortRig;
    let heard: Heard;
    let open: () => Promise<OpenPort>;
    beforeEach(async () => {
      rig = await makeRig();
      heard = listener();
      open = () => rig.opener.open(rig.path, rig.settings, heard);
    });
    afterEach(() => rig.close());

    const provoked = async (): Promise<Uint8Array> => {
      const chunk = heard.nextChunk();
      await rig.provoke();
      return chunk;
    };

    it('says which nature it has', async () => {
      const port = await open();
      expect(port.nature).toBe(rig.nature);
      await port.close();
    });

    it('refuses a path with nothing behind it as missing', async () => {
      expect(await codeOf(rig.opener.open(rig.missingPath, rig.settings, heard))).toBe('missing');
      expect(heard.ends).toEqual([]);
    });

    it('refuses a second opening as busy, and opens again once the first is closed', async () => {
      const port = await open();
      expect(await codeOf(rig.opener.open(rig.path, rig.settings, listener()))).toBe('busy');
      await port.close();
      await (await open()).close();
    });

    it('delivers chunks stamped in order, each the listener’s to keep', async () => {
      const port = await open();
      const first = await provoked();
      const copy = Uint8Array.from(first);
      await provoked();
      expect(first).toEqual(copy);
      expect(first.length).toBeGreaterThan(0);
      const stamps = heard.chunks.map((chunk) => chunk.at);
      expect(stamps.every(Number.isFinite)).toBe(true);
      expect(stamps).toEqual(stamps.toSorted((a, b) => a - b));
      await port.close();
    });

    it('tells its close once, and nothing afterwards', async () => {
      const port = await open();
      await provoked();
      await Promise.all([port.close(), port.close()]);
      await port.close();
      const count = heard.chunks.length;
      await rig.provoke();
      const again = listener();
      const next = again.nextChunk();
      const reopened = await rig.opener.open(rig.path, rig.settings, again);
      await rig.provoke();
      await next;
      expect(heard.chunks.length).toBe(count);
      expect(heard.ends).toEqual(['asked']);
      await reopened.close();
    });

    it('tells a loss once; then the path is missing until it is plugged in again', async () => {
      const port = await open();
      await provoked();
      await rig.unplug();
      expect(await heard.ended()).toBe('lost');
      expect(await codeOf(open())).toBe('missing');
      await port.close();
      await rig.replug();
      const again = await open();
      await provoked();
      expect(heard.ends).toEqual(['lost']);
      await again.close();
    });

    it('takes writes while open and rejects them after close', async () => {
      const port = await open();
      await port.write(Uint8Array.of(0x51, 0x0d, 0x0a));
      await port.close();
      await expect(port.write(Uint8Array.of(0x51))).rejects.toBeInstanceOf(Error);
    });
  });
}
