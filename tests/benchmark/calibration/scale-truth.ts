import type { Random } from './random';

/**
 * How a scale turns a force into a figure. Written from the physics of load cells and of the filters their makers are known to use in
 * general (one pole, running mean, median, adaptive, held display), not from the rules under test.
 */
export interface ScaleTruth {
  readonly division: number;
  /** One step of `STEP_MS` under this force, mg. */
  advance(force: number): void;
  /** The figure on the display now, mg. */
  shown(): number;
}

export const STEP_MS = 10;

/** A filter: next output for this input. */
type Filter = (input: number) => number;

const onePole = (tau: number): Filter => {
  const share = 1 - Math.exp(-STEP_MS / tau);
  let out = 0;
  return (input) => (out += share * (input - out));
};

const runningMean = (window: number): Filter => {
  const size = Math.max(1, Math.round(window / STEP_MS));
  const ring = new Float64Array(size);
  let at = 0;
  let sum = 0;
  return (input) => {
    sum += input - (ring[at] ?? 0);
    ring[at] = input;
    at = (at + 1) % size;
    return sum / size;
  };
};

/** Platform and cell ring at some 6–14 Hz before any filter. */
const platform = (hertz: number, damping: number): Filter => {
  const omega = 2 * Math.PI * hertz;
  let x = 0;
  let v = 0;
  return (input) => {
    for (let part = 0; part < 2; part += 1) {
      const dt = STEP_MS / 2000;
      v += dt * (omega * omega * (input - x) - 2 * damping * omega * v);
      x += dt * v;
    }
    return x;
  };
};

/** Fast while the load changes, slow once it stands. */
const adaptive = (fast: number, slow: number, limit: number): Filter => {
  const quick = 1 - Math.exp(-STEP_MS / fast);
  const calm = 1 - Math.exp(-STEP_MS / slow);
  let out = 0;
  return (input) => (out += (Math.abs(input - out) > limit ? quick : calm) * (input - out));
};

/** Median of the newest five samples taken every `every` steps. */
const medianOf5 = (every: number): Filter => {
  const kept = [0, 0, 0, 0, 0];
  let count = 0;
  let out = 0;
  return (input) => {
    count += 1;
    if (count % every !== 0) return out;
    kept.shift();
    kept.push(input);
    out = kept.toSorted((a, b) => a - b)[2] ?? input;
    return out;
  };
};

const chain =
  (...filters: readonly Filter[]): Filter =>
  (input) =>
    filters.reduce((value, filter) => filter(value), input);

/** A display that stays until the filtered value has left it by some divisions for a while, then jumps. */
const held = (inner: Filter, apart: number, steps: number): Filter => {
  let out = 0;
  let away = 0;
  return (input) => {
    const value = inner(input);
    away = Math.abs(value - out) > apart ? away + 1 : 0;
    if (away >= steps) {
      out = value;
      away = 0;
    }
    return out;
  };
};

/** Families to fit constants on, and others that no constant has seen. */
export const FITTED = ['one-pole', 'running-mean', 'adaptive'] as const;
export const UNSEEN = ['two-pole', 'median-mean', 'held', 'ringing'] as const;
export type Family = (typeof FITTED)[number] | (typeof UNSEEN)[number];

const FILTERS: Readonly<Record<Family, (random: Random, division: number) => Filter>> = {
  'one-pole': (r) => onePole(r.between(80, 450)),
  'running-mean': (r) => chain(platform(r.between(6, 14), r.between(0.1, 0.4)), runningMean(r.between(200, 900))),
  adaptive: (r, d) => adaptive(r.between(40, 90), r.between(300, 800), r.between(3, 12) * d),
  'two-pole': (r) => chain(onePole(r.between(50, 300)), onePole(r.between(50, 300))),
  'median-mean': (r) => chain(medianOf5(Math.round(r.between(2, 6))), runningMean(r.between(150, 600))),
  held: (r, d) => held(onePole(r.between(80, 300)), r.between(0.5, 0.9) * d, Math.round(r.between(3, 20))),
  ringing: (r) => chain(platform(r.between(5, 10), r.between(0.05, 0.15)), onePole(r.between(60, 250))),
};

/** A cell of this family with its own noise, wandering, drift and creep. `drift`: extra, divisions per minute. */
export const createScale = (random: Random, family: Family, division: number, drift = 0): ScaleTruth => {
  const filter = FILTERS[family](random, division);
  const noise = random.logBetween(0.3, 3) * division;
  const wander = random.between(0, 0.3) * division;
  const calm = STEP_MS / random.between(20_000, 60_000);
  const perStep = ((random.between(-0.3, 0.3) + drift) * division * STEP_MS) / 60_000;
  const creep = random.between(0, 1.5e-4);
  const creepShare = STEP_MS / random.between(60_000, 300_000);
  const hysteresis = random.between(0, 0.2) * division;
  let wandered = 0;
  let drifted = 0;
  let crept = 0;
  let value = 0;
  let figure = 0;
  return {
    division,
    advance(force) {
      wandered += -calm * wandered + wander * Math.sqrt(2 * calm) * random.gauss();
      drifted += perStep;
      crept += creepShare * (creep * force - crept);
      value = filter(force + wandered + drifted + crept + noise * random.gauss());
    },
    shown() {
      if (Math.abs(value - figure) > division / 2 + hysteresis) figure = Math.round(value / division) * division;
      return figure;
    },
  };
};
