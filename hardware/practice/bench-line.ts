import { PortError } from '#lib/measure/link/port';
import type { OpenPort, PortEvents } from '#lib/measure/link/port';
import type { Monotonic } from '#lib/units/time';
import type { Voice } from './voice/voice';

/** One simulated cable: an instrument's voice at one end, at most one opened port at the other. */
export interface BenchLine {
  readonly plugged: boolean;
  readonly open: boolean;
  /** What the instrument says; lost when nobody has the port open. */
  carry(bytes: Uint8Array, at: Monotonic): void;
  plug(): void;
  unplug(): void;
  /** @throws PortError `missing` or `busy`. */
  connect(path: string, events: PortEvents, voice: Voice): OpenPort;
}

/** `changed` is called when a port opens or closes. */
export const createBenchLine = (changed: () => void): BenchLine => {
  let plugged = true;
  let listener: PortEvents | null = null;

  const end = (why: 'asked' | 'lost'): void => {
    const ended = listener;
    listener = null;
    if (ended === null) return;
    changed();
    ended.closed(why);
  };

  return {
    get plugged() {
      return plugged;
    },
    get open() {
      return listener !== null;
    },
    carry(bytes, at) {
      listener?.data(bytes, at);
    },
    plug: () => void (plugged = true),
    unplug() {
      plugged = false;
      end('lost');
    },
    connect(path, events, voice) {
      if (!plugged) throw new PortError('missing', `${path} is unplugged`);
      if (listener !== null) throw new PortError('busy', `${path} is open already`);
      listener = events;
      voice.joined();
      changed();
      return {
        nature: 'simulated',
        async write(bytes) {
          if (listener !== events) throw new Error(`${path} is closed`);
          voice.hear(bytes);
        },
        async close() {
          if (listener === events) end('asked');
        },
      };
    },
  };
};
