import type { Weighing } from './pan';
import type { Random } from './random';
import type { ScaleModel } from './scale-model';
import { STEP_MS } from './step';
import { createStream, TILT_MS } from './stream';
import type { Stream } from './stream';
import type { Task } from './task';
import type { Vessel } from './vessel';

/** What a pourer needs: between which vessels, over which pan, and the scale whose figure is watched. */
export interface PourPlace extends Weighing {
  readonly from: Vessel;
  readonly to: Vessel;
}

/** What the hand wants of the stream in this step; `stop`: the jug goes upright. */
type Tilt = { readonly flow: number; readonly atMost: number } | 'stop';

/** A pour of an exact amount in about this time, with no look at the scale: for over-pours and for programs that state a mass. */
export const measuredPour = (place: PourPlace, amount: number, seconds: number): Task => {
  const stream = createStream(place.from, place.to);
  const peak = amount / Math.max(0.3, seconds - 0.4);
  return pouring(place, stream, 0, () => {
    const left = amount - stream.poured;
    if (left <= 0 || place.from.contents === 0) return 'stop';
    // Thinner at the end, so that the last milligrams do not leave at full tilt.
    return { flow: Math.min(peak, Math.max(left / 0.3, peak / 20, 200)), atMost: left };
  });
};

/** What the bench tells a pourer while the stream runs. */
export interface PourTold {
  /** The screen says: ease off. */
  easeOff(): boolean;
  /** The figure can be seen: a maker who sees nothing stops. */
  visible(): boolean;
}

export interface EyePour {
  /** What is still missing on the scale's figure, mg. */
  readonly aim: number;
  readonly tolerance: number;
  /** Has not learnt to allow for anything: stops when the figure is there, or when the screen says so, whichever comes first. */
  readonly unpractised?: boolean;
}

/** The stream is thinned so that what is left would take this long: well above the lag of eye, hand and scale together. */
const THINNING_S = 1.6;
/** The same once the screen has said ease off. */
const EASED_S = 2.6;

/** Figure to eye, and decision to hand, ms. */
const EYE_MS = 150;
const HAND_MS = 250;

/**
 * A pour by a competent maker: not before the figure stands still, full flow first, thinner as the figure closes on the aim, stopped a hand's delay after the eye has
 * decided, with what still leaves the jug and what hides in the scale's filter allowed for, a little wrongly each time.
 */
export const pourByEye = (place: PourPlace, { aim, tolerance, unpractised = false }: EyePour, told: PourTold, random: Random): Task => {
  const stream = createStream(place.from, place.to);
  const { model } = place.scale;
  const handDelay = random.between(HAND_MS - 70, HAND_MS + 70);
  // What a practised hand has learnt to allow for. Falling material pushes as much as it will weigh, so it hides nothing.
  const unseen = EYE_MS + model.filterMs / 2 + settlingLag(model) + model.updateMs / 2;
  const yetToLeave = HAND_MS + TILT_MS;
  let lately = 0;
  const misjudged = Math.min(1.3, Math.max(0.7, 1 + 0.12 * random.gauss()));
  const off = unpractised ? 0 : 0.35 * tolerance * random.gauss();
  const trickle = Math.min(3_000, Math.max(20, tolerance));
  const peak = Math.min(120_000, Math.max(trickle, aim / 4));
  let reach = random.between(400, 800);
  let patience = 4_000;
  let seen: ((value: number) => number) | null = null;
  let start = 0;
  let stopIn: number | null = null;

  return pouring(place, stream, Infinity, () => {
    const { mass, motion } = place.scale.display();
    if (seen === null) {
      reach -= STEP_MS;
      patience -= STEP_MS;
      if (reach > 0 || (motion === 'moving' && patience > 0)) return { flow: 0, atMost: 0 };
      start = mass;
      seen = delayed(EYE_MS, mass);
    }
    const left = aim - Math.abs(seen(mass) - start);
    // The stream was fuller a moment ago, and that part the figure does not show yet.
    lately += ((stream.flow - lately) * STEP_MS) / (unseen / 2);
    const lacks = unpractised ? left : left - (lately * unseen * misjudged) / 1000;
    // A full stream is thinned before it is stopped: nobody judges an end from there.
    const judged = lacks - (stream.flow * yetToLeave) / 1000 <= off && (lacks <= 0 || stream.flow <= 3 * trickle);
    const near = unpractised ? left <= 0 || told.easeOff() : judged;
    if (stopIn === null && (near || !told.visible())) stopIn = handDelay;
    if (place.from.contents === 0 || (stopIn !== null && (stopIn -= STEP_MS) <= 0)) return 'stop';
    const thinned = Math.max(trickle, lacks / (told.easeOff() ? EASED_S : THINNING_S));
    return { flow: Math.min(peak, thinned), atMost: Infinity };
  });
};

/** How far a figure runs behind a steady flow because of the load cell's mount. */
const settlingLag = ({ settling }: ScaleModel): number => (settling.order === 1 ? settling.ms : 2 * settling.damping * settling.ms);

/** Every pour ends alike: the jug upright, the air empty. `tail` caps what a step may still let go while the jug comes up. */
const pouring = (place: PourPlace, stream: Stream, tail: number, tilt: () => Tilt): Task => {
  const ontoPan = place.pan.standing === place.to;
  let stopped = false;
  const flowing = (): number => {
    const now = stopped ? 'stop' : tilt();
    if (now !== 'stop') return stream.step(now.flow, now.atMost);
    stopped = true;
    return stream.step(0, tail);
  };
  return {
    name: 'pour',
    airborne: () => stream.airborne,
    stop: () => void (stopped = true),
    step() {
      const push = flowing();
      const done = stopped && stream.flow === 0 && stream.airborne === 0;
      // The last drop has come to rest: a push left standing would weigh for ever.
      place.pan.push = ontoPan && !done ? push : 0;
      return done;
    },
  };
};

/** What the eye sees is what the display showed a moment ago. */
const delayed = (ms: number, first: number): ((value: number) => number) => {
  const ring = Array.from({ length: Math.round(ms / STEP_MS) }, () => first);
  let at = 0;
  return (value) => {
    const old = ring[at] ?? first;
    ring[at] = value;
    at = (at + 1) % ring.length;
    return old;
  };
};
