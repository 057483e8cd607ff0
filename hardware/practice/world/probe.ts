import type { Random } from './random';

/** A one-wire probe: lags behind its vessel, is a little off, and answers in sixteenths of a degree (DS18B20 data sheet, 12 bit). */
export interface Probe {
  /** `dt` seconds in something of this temperature. */
  advance(dt: number, celsius: number): void;
  /** A conversion: quantised to 0.0625 °C. */
  convert(): number;
}

export const PROBE_STEP = 0.0625;
/** Time constant in a stirred liquid, s, and noise of a conversion, °C: assumptions, no source. */
const LAG = 6;
const NOISE = 0.03;

export const createProbe = (start: number, random: Random): Probe => {
  const offset = 0.15 * Math.max(-2, Math.min(2, random.gauss()));
  let tip = start;
  return {
    advance: (dt, celsius) => void (tip += (celsius - tip) * (1 - Math.exp(-dt / LAG))),
    convert: () => Math.round((tip + offset + NOISE * random.gauss()) / PROBE_STEP) * PROBE_STEP,
  };
};
