import { STEP_MS } from './step';
import type { Vessel } from './vessel';

/** How long material falls from a jug's lip, about 15 cm: √(2h/g). */
const FALL_MS = 170;
/** How fast a tilting hand changes the flow. */
export const TILT_MS = 200;

/** Material on its way from one vessel to another: leaves at a flow, hangs in the air, arrives. Whole milligrams throughout. */
export interface Stream {
  readonly flow: number;
  /** Milligrams in the air. */
  readonly airborne: number;
  readonly poured: number;
  /**
   * One step. The flow in mg/s leans towards `wanted`; `atMost` caps what may leave in this step.
   * Returns the push of what arrives, in mg: mass per second times fall time, the weight that a column in the air would have.
   */
  step(wanted: number, atMost: number): number;
}

export const createStream = (from: Vessel, to: Vessel): Stream => {
  const air: { at: number; mass: number }[] = [];
  let now = 0;
  let flow = 0;
  let carry = 0;
  let airborne = 0;
  let poured = 0;

  const leave = (atMost: number): void => {
    carry += (flow * STEP_MS) / 1000;
    const mass = Math.max(0, Math.min(Math.floor(carry), Math.floor(atMost), from.contents));
    carry = Math.min(carry - mass, 1);
    if (mass === 0) return;
    from.contents -= mass;
    airborne += mass;
    poured += mass;
    air.push({ at: now + FALL_MS, mass });
  };

  const arrive = (): number => {
    let mass = 0;
    while (air[0] !== undefined && air[0].at <= now) mass += air.shift()?.mass ?? 0;
    airborne -= mass;
    to.contents += mass;
    return (mass * FALL_MS) / STEP_MS;
  };

  return {
    get flow() {
      return flow;
    },
    get airborne() {
      return airborne;
    },
    get poured() {
      return poured;
    },
    step(wanted, atMost) {
      now += STEP_MS;
      flow += (wanted - flow) * (STEP_MS / TILT_MS);
      // A jug set upright stops; an exponential alone would drip for ever.
      if (wanted === 0 && flow < 2) flow = 0;
      leave(atMost);
      return arrive();
    },
  };
};
