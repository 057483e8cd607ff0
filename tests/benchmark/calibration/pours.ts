import type { Random } from './random';
import { STEP_MS } from './scale-truth';

/** How material comes: the hand says how far the jug is tilted, this says what lands. Masses in mg, flow in mg per ms. */
export interface Pour {
  /** `asked`: flow the hand wants now. Returns what lands in this step. */
  step(asked: number): number;
  /** In the air: it presses as much as it will weigh (its momentum), so the pan feels it already. */
  airborne(): number;
  /** Nothing flows, falls or drips any more. */
  done(): boolean;
}

export const POURED = ['water', 'oil', 'glugging', 'grains'] as const;
export type Poured = (typeof POURED)[number];

interface Manner {
  /** The jug follows the hand, ms. */
  readonly tilt: number;
  readonly fall: number;
  /** Share of the last flow that runs on as a thread, and how long, ms. */
  readonly thread: number;
  readonly threadTau: number;
  /** Drops at the end: how many, and mass of each, mg. */
  readonly drops: number;
  readonly drop: number;
  readonly every: number;
  /** Flow comes in pulses of this depth and rate, Hz. */
  readonly pulse: number;
  readonly hertz: number;
  /** Mass of one grain; 0 for a liquid. */
  readonly grain: number;
}

const MANNER: Readonly<Record<Poured, (random: Random) => Manner>> = {
  water: (r) => ({
    ...STEADY,
    tilt: r.between(60, 160),
    fall: r.between(120, 300),
    thread: 0.3,
    threadTau: r.between(50, 120),
    drops: r.chance(0.5) ? Math.floor(r.between(1, 4)) : 0,
    every: r.between(300, 1500),
  }),
  oil: (r) => ({
    ...STEADY,
    tilt: r.between(80, 220),
    fall: r.between(120, 300),
    thread: r.between(0.2, 0.5),
    threadTau: r.between(150, 700),
    drops: Math.floor(r.between(0, 3)),
    every: r.between(500, 2000),
  }),
  glugging: (r) => ({
    ...STEADY,
    tilt: r.between(80, 200),
    fall: r.between(120, 300),
    thread: 0.2,
    threadTau: 80,
    pulse: r.between(0.4, 0.9),
    hertz: r.between(1.5, 3),
  }),
  grains: (r) => ({
    ...STEADY,
    tilt: r.between(60, 150),
    fall: r.between(100, 250),
    thread: 0.1,
    threadTau: 60,
    pulse: r.between(0.2, 0.8),
    hertz: r.between(2, 5),
    grain: r.logBetween(0.5, 40),
  }),
};

const STEADY = { drops: 0, drop: 40, every: 1000, pulse: 0, hertz: 1, grain: 0 };

export const createPour = (random: Random, kind: Poured): Pour => {
  const manner = MANNER[kind](random);
  const share = 1 - Math.exp(-STEP_MS / manner.tilt);
  const thin = Math.exp(-STEP_MS / manner.threadTau);
  const air = new Float64Array(Math.max(1, Math.round(manner.fall / STEP_MS)));
  const phase = random.between(0, 6);
  let at = 0;
  let inAir = 0;
  let flow = 0;
  let thread = 0;
  let dropsLeft = 0;
  let nextDrop = 0;
  let time = 0;
  let owed = 0;

  const leaving = (asked: number): number => {
    flow += share * (asked - flow);
    if (asked > 0) {
      thread = manner.thread * flow;
      dropsLeft = manner.drops;
      nextDrop = time + manner.every;
    } else thread *= thin;
    if (asked === 0 && flow < 0.002) flow = 0;
    const pulsed = flow * (1 + manner.pulse * Math.sin((2 * Math.PI * manner.hertz * time) / 1000 + phase));
    let out = Math.max(0, pulsed + (asked > 0 ? 0 : thread)) * STEP_MS;
    if (thread < 0.001) thread = 0;
    if (asked === 0 && dropsLeft > 0 && flow === 0 && time >= nextDrop) {
      dropsLeft -= 1;
      nextDrop = time + manner.every * random.between(0.6, 1.6);
      out += manner.drop * random.between(0.7, 1.2);
    }
    return out;
  };

  /** Grains fall whole. */
  const whole = (mass: number): number => {
    if (manner.grain === 0) return mass;
    owed += mass;
    const count = Math.max(0, Math.floor(owed / manner.grain + 0.5 * random.unit()));
    owed -= count * manner.grain;
    return count * manner.grain;
  };

  return {
    step(asked) {
      time += STEP_MS;
      const out = whole(leaving(asked));
      const landed = air[at] ?? 0;
      air[at] = out;
      at = (at + 1) % air.length;
      inAir += out - landed;
      return landed;
    },
    airborne: () => inAir,
    done: () => flow === 0 && thread === 0 && dropsLeft === 0 && inAir < 1e-6,
  };
};
