import type { InstrumentConfig } from '#lib/measure/instrument';

/** What the command line settles before anything starts. */
export interface Options {
  readonly port: number;
  /** Absolute path of the data directory; outside the checkout unless the person said otherwise. */
  readonly data: string;
  /** Addresses to listen on; loopback unless the person said otherwise. */
  readonly host: string;
  /** Host names accepted besides loopback and our own addresses. */
  readonly allowHosts: readonly string[];
  /** From `--scale` and `--probe`; empty means: what Setup stored, else the practice bench. */
  readonly instruments: readonly InstrumentConfig[];
  /** `--scale practice`: the practice bench whatever Setup stored. */
  readonly practice: boolean;
  /** Pseudo-terminals count as real instruments (a serial line over a network); every record then states it. */
  readonly ptyIsReal: boolean;
  /** Seed of the practice bench, so that a demonstration can be repeated. */
  readonly seed: number;
  /** The practice bench begins with an invented half-year, when nothing stands in its record. */
  readonly past: boolean;
  /** Next's development handler in this process instead of the exported pages. */
  readonly dev: boolean;
}

/** A flag that cannot be understood. Its message says what was meant, perhaps, and what is possible. */
export class BadOption extends Error {}
