import { encode } from '#tests/support/encode-frames';
import { ptyPair } from '#tests/support/pty';
import type { Pty } from '#tests/support/pty';

const EVERY_MS = 100;
export const SPOKEN_DIVISION = 100;

export interface Said {
  readonly at: number;
  readonly mass: number;
}

/**
 * A scale that speaks on a tty of its own and keeps every number it said. Its load moves evenly from one mass to another, whether the cable
 * is in or not. Masses in mg, times in ms of `performance.now()`.
 */
export class SpokenScale {
  readonly said: Said[] = [];
  readonly pty: Pty;
  /** When the cable was last pulled and put back. */
  pulledAt = -Infinity;
  pluggedAt = -Infinity;
  plugged = true;
  #move = { from: 0, to: 0, at: 0, ms: 1 };
  readonly #timer: NodeJS.Timeout;

  private constructor(pty: Pty) {
    this.pty = pty;
    this.#timer = setInterval(() => void this.#speak(), EVERY_MS);
  }

  static async plugIn(): Promise<SpokenScale> {
    return new SpokenScale(await ptyPair('scale'));
  }

  get load(): number {
    const { from, to, at, ms } = this.#move;
    const part = Math.min(1, (performance.now() - at) / ms);
    return Math.round((from + part * (to - from)) / SPOKEN_DIVISION) * SPOKEN_DIVISION;
  }
  get moves(): boolean {
    return performance.now() < this.#move.at + this.#move.ms;
  }

  moveTo(mass: number, ms: number): void {
    this.#move = { from: this.load, to: mass, at: performance.now(), ms };
  }

  /** Pulls the cable in the middle of a frame. */
  async unplug(share: number): Promise<void> {
    const frame = this.#frame(this.load);
    await this.pty.write(frame.subarray(0, Math.floor(share * frame.length)));
    this.plugged = false;
    this.pulledAt = performance.now();
    await this.pty.kill();
  }

  async replug(): Promise<void> {
    await this.pty.replug();
    this.plugged = true;
    this.pluggedAt = performance.now();
  }

  async close(): Promise<void> {
    clearInterval(this.#timer);
    await this.pty.close();
  }

  async #speak(): Promise<void> {
    if (!this.plugged) return;
    const mass = this.load;
    this.said.push({ at: performance.now(), mass });
    await this.pty.write(this.#frame(mass));
  }

  #frame(mass: number): Uint8Array {
    const motion = this.moves ? 'moving' : 'stable';
    const count = Math.abs(mass) / SPOKEN_DIVISION;
    return encode('header-comma', { count, negative: mass < 0, decimals: 1, unit: 'g', motion, range: 'in', weighing: 'gross' });
  }
}
