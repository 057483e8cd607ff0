import { createLink, type Link } from '#lib/measure/link/link';
import { PortError, type OpenPort, type PortEvents, type PortFailure } from '#lib/measure/link/port';
import type { InstrumentConfig, LinkStatus, WireFault } from '#lib/measure/instrument';
import type { Reading } from '#lib/measure/reading';
import type { ProbeShape, ScaleShape } from '#lib/measure/shape';
import { as, type InstrumentId } from '#lib/units/id';
import { monotonic, type Monotonic } from '#lib/units/time';
import { deferred } from '#tests/support/deferred';

/** A clock and timers that move only when told, and let promises run in between. */
export function fakeTime() {
  let at = 1_000;
  const pending = new Map<number, { readonly due: number; readonly run: () => void }>();
  let ids = 0;
  let most = 0;
  return {
    clock: { now: (): Monotonic => monotonic(at) },
    timers: {
      set(run: () => void, ms: number): unknown {
        pending.set((ids += 1), { due: at + ms, run });
        most = Math.max(most, pending.size);
        return ids;
      },
      clear: (id: unknown): void => void pending.delete(id as number),
    },
    /** Timers waiting now, and the most that ever waited at once. */
    waiting: () => pending.size,
    most: () => most,
    /** Time passes while nothing of ours runs. */
    stall: (ms: number): void => void (at += ms),
    async advance(ms: number): Promise<void> {
      const until = at + ms;
      for (;;) {
        await new Promise(setImmediate);
        const [first] = [...pending].filter(([, timer]) => timer.due <= until).toSorted(([, a], [, b]) => a.due - b.due);
        if (first === undefined) break;
        pending.delete(first[0]);
        at = Math.max(at, first[1].due);
        first[1].run();
      }
      at = until;
    },
  };
}

/** What a fake open does: opens, is refused, or does not answer until told. */
type Answer = 'open' | PortFailure | 'hang';

export interface FakePort {
  readonly events: PortEvents;
  readonly written: string[];
  closes: number;
  /** Lets a hanging open or close go on. */
  release(): void;
}

export function fakeOpener() {
  const ports: FakePort[] = [];
  const plan = { open: 'open' as Answer, close: 'prompt' as 'prompt' | 'hang', nature: 'serial' as OpenPort['nature'] };
  return {
    ports,
    plan,
    newest: (): FakePort => ports.at(-1) as FakePort,
    async open(_path: string, _settings: unknown, events: PortEvents): Promise<OpenPort> {
      const answer = plan.open;
      const released = deferred();
      const port: FakePort = { events, written: [], closes: 0, release: () => released.resolve() };
      ports.push(port);
      if (answer === 'hang') await released.promise;
      else if (answer !== 'open') throw new PortError(answer, `system says ${answer}`);
      return {
        nature: plan.nature,
        async write(bytes) {
          port.written.push(String.fromCharCode(...bytes));
        },
        async close() {
          port.closes += 1;
          if (plan.close === 'hang') await released.promise;
        },
      };
    },
  };
}

export const scaleConfig = (shape: ScaleShape | null): InstrumentConfig => ({
  kind: 'scale',
  id: as<InstrumentId>('scale-main'),
  role: 'main',
  name: 'big scale',
  path: '/dev/serial/by-id/some-adapter',
  shape,
  serial: { baudRate: 9600, frame: '8N1' },
  capacity: null,
  division: null,
});

export const probeConfig = (shape: ProbeShape | null): InstrumentConfig => ({
  kind: 'probe',
  id: as<InstrumentId>('probe-lye'),
  name: 'lye probe',
  path: '/dev/serial/by-id/some-board',
  use: 'lye',
  shape,
  serial: { baudRate: 9600, frame: '8N1' },
});

/** A link on a fake port in a fake time, and what it told its sink. */
export function linkRig(config: InstrumentConfig = scaleConfig('header-comma')) {
  const time = fakeTime();
  const opener = fakeOpener();
  const readings: Reading[] = [];
  const statuses: LinkStatus[] = [];
  const faults: WireFault[] = [];
  const link: Link = createLink({
    config,
    opener,
    ...time,
    sink: {
      reading: (reading) => void readings.push(reading),
      status: (status) => void statuses.push(status),
      fault: (fault) => void faults.push(fault),
    },
  });
  const say = (text: string): void => opener.newest().events.data(new TextEncoder().encode(text), time.clock.now());
  return {
    time,
    opener,
    readings,
    statuses,
    faults,
    link,
    say,
    /** Sends `text` every `everyMs`, so many times. */
    async stream(text: string | ((n: number) => string), times: number, everyMs = 100): Promise<void> {
      for (let n = 0; n < times; n += 1) {
        say(typeof text === 'string' ? text : text(n));
        await time.advance(everyMs);
      }
    },
    /** What passed, in milligrams or thousandths of a degree. */
    values: (): (number | null)[] => readings.map((reading) => (reading.kind === 'mass' ? reading.mass : reading.value)),
    phases: (): string[] => statuses.map((status) => status.phase),
  };
}
