/** What an instrument says on its line. It speaks in the world's time only. */
export interface Voice {
  /** Called after every step of the world. */
  step(): void;
  /** Bytes that reached the instrument. */
  hear(bytes: Uint8Array): void;
  /** Someone opened the line: what comes first is the rest of a frame that was under way, as on a real wire. */
  joined(): void;
  /** Stops or resumes talking while staying plugged in. */
  silence(on: boolean): void;
}

export type Send = (bytes: Uint8Array) => void;

/** Sends whole frames, except that the first after `joined` has lost its beginning. */
export interface Mouth {
  say(frame: Uint8Array): void;
  joined(): void;
  silence(on: boolean): void;
}

export const createMouth = (send: Send, lost: (length: number) => number): Mouth => {
  let midway = false;
  let silent = false;
  return {
    say(frame) {
      if (silent) return;
      const from = midway ? lost(frame.length) : 0;
      midway = false;
      send(from === 0 ? frame : frame.slice(from));
    },
    joined: () => void (midway = true),
    silence: (on) => void (silent = on),
  };
};
