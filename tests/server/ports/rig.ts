import { performance } from 'node:perf_hooks';
import { createSerialOpener } from '#hardware/ports/serialport-opener';
import { createLink, type Link } from '#lib/measure/link/link';
import type { InstrumentConfig, LinkStatus } from '#lib/measure/instrument';
import type { Reading } from '#lib/measure/reading';
import type { ProbeShape, ScaleShape } from '#lib/measure/shape';
import { as, type InstrumentId } from '#lib/units/id';
import { monotonic, type Monotonic } from '#lib/units/time';
import { deferred } from '#tests/support/deferred';
import type { Pty } from '#tests/support/pty';

export const scaleOn = (path: string, shape: ScaleShape | null = 'header-comma'): InstrumentConfig => ({
  kind: 'scale',
  id: as<InstrumentId>('scale-main'),
  role: 'main',
  name: 'big scale',
  path,
  shape,
  serial: { baudRate: 9600, frame: '8N1' },
  capacity: null,
  division: null,
});

export const probeOn = (path: string, shape: ProbeShape | null = 'probe-line'): InstrumentConfig => ({
  kind: 'probe',
  id: as<InstrumentId>('probe-lye'),
  name: 'lye probe',
  path,
  use: 'lye',
  shape,
  serial: { baudRate: 9600, frame: '8N1' },
});

export interface RealLink {
  readonly link: Link;
  readonly readings: Reading[];
  /** Resolves as soon as a status fulfils the wish; the present one counts. Rejects, saying what there was instead, when none does. */
  readonly status: (wish: (status: LinkStatus) => boolean) => Promise<LinkStatus>;
  /** The next reading from now on. */
  readonly reading: () => Promise<Reading>;
}

/** Several times what anything here takes, and less than a test may last. */
const LONGEST_MS = 12_000;
const toldBy = ({ phase, failure, lossesLastHour }: LinkStatus): string =>
  `${phase}${failure === null ? '' : ` (${failure})`}, ${lossesLastHour} lost`;

/**
 * A link on a real tty, started. `speed`: how many times faster than the wall clock its time runs, so that a watchdog of seconds
 * is tried in a fraction of one; the bytes, the kernel and the opener are the real ones.
 */
export function realLink(config: InstrumentConfig, speed = 1): RealLink {
  const now = (): Monotonic => monotonic(performance.now() * speed);
  const readings: Reading[] = [];
  const wishes = new Set<{ readonly wish: (status: LinkStatus) => boolean; grant(status: LinkStatus): void }>();
  const readers = new Set<(reading: Reading) => void>();
  const link = createLink({
    config,
    opener: createSerialOpener({ now }),
    clock: { now },
    timers: { set: (run, ms) => setTimeout(run, ms / speed), clear: (timer) => clearTimeout(timer as NodeJS.Timeout) },
    sink: {
      reading(reading) {
        readings.push(reading);
        for (const take of readers) take(reading);
        readers.clear();
      },
      status(status) {
        for (const wished of wishes) if (wished.wish(status)) wished.grant(status);
      },
    },
  });
  link.start();
  return {
    link,
    readings,
    status(wish) {
      if (wish(link.status())) return Promise.resolve(link.status());
      const { promise, resolve, reject } = deferred<LinkStatus>();
      const seen: string[] = [toldBy(link.status())];
      const wished = {
        wish: (status: LinkStatus) => {
          if (seen.at(-1) !== toldBy(status)) seen.push(toldBy(status));
          return wish(status);
        },
        grant: resolve,
      };
      wishes.add(wished);
      const limit = setTimeout(() => reject(new Error(`never so in ${LONGEST_MS / 1000} s, but: ${seen.join('; ')}`)), LONGEST_MS);
      return promise.finally(() => {
        clearTimeout(limit);
        wishes.delete(wished);
      });
    },
    reading() {
      const { promise, resolve } = deferred<Reading>();
      readers.add(resolve);
      return promise;
    },
  };
}

/** An instrument that sends `frame()` every `everyMs` as long as it is not stopped. */
export function talk(pty: Pty, frame: () => string, everyMs = 100): { stop(): void } {
  const timer = setInterval(() => void pty.write(frame()), everyMs);
  return { stop: () => clearInterval(timer) };
}
