import type { Monotonic } from '#lib/units/time';

/** Serial parameters; `8N1` and `7E1` cover the instruments we know. */
export interface SerialSettings {
  readonly baudRate: number;
  readonly frame: '8N1' | '7E1' | '7O1' | '8E1';
}

/** Each failure has its own message with what to do; `failed` carries the system's words. */
export type PortFailure = 'busy' | 'denied' | 'missing' | 'ambiguous' | 'failed';

export class PortError extends Error {
  readonly code: PortFailure;
  constructor(code: PortFailure, message: string) {
    super(message);
    this.name = 'PortError';
    this.code = code;
  }
}

export interface PortEvents {
  /** Called per chunk; `at` is stamped before anything looks at the bytes. The chunk is the listener's to keep. */
  data(chunk: Uint8Array, at: Monotonic): void;
  /** Called exactly once after a successful open, whatever ended it; nothing is called afterwards. */
  closed(why: 'asked' | 'lost'): void;
}

export interface OpenPort {
  /** Resolves when the bytes have left; rejects after close. */
  write(bytes: Uint8Array): Promise<void>;
  /** Resolves when the port is free to be opened again. Idempotent. */
  close(): Promise<void>;
  /** `pty` marks a pseudo-terminal: its readings are never real unless the person said so at start. */
  readonly nature: 'serial' | 'pty' | 'simulated';
}

/** The only thing the program knows of a serial port. Implemented in `hardware/ports` and, for practice, in `hardware/practice`. */
export interface PortOpener {
  /** Rejects with `PortError`; a rejected open holds nothing. */
  open(path: string, settings: SerialSettings, events: PortEvents): Promise<OpenPort>;
}
