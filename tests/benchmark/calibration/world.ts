import type { BenchCue } from '#lib/bench/cue';
import { STEP_MS } from './scale-truth';

/** What truly stands, falls and pushes on the pan. Masses in mg, times in ms. */
export interface World {
  now: number;
  /** Share of the jar's weight the pan carries: 0 in the hand, 1 set down. */
  support: number;
  jar: number;
  /** Material in the jar, and how much of it belongs to each line. */
  material: number;
  readonly perLine: number[];
  /** The same when the jar was last lifted: what leaves it in the hand no scale can know. */
  atLift: readonly number[] | null;
  /** In the jar, but no material. */
  foreign: number;
  /** On the pan beside the jar. */
  loose: number;
  /** In the air above the jar: presses as much as it will weigh. */
  airborne: number;
  /** Knocks of the hand that sets down, lifts or drops. */
  knock: number;
  /** What disturbs from outside, mg of force; set anew in every step. */
  push: number;
  /** Line being poured. */
  line: number;
  lastLanded: number;
  /** What has happened, by when: disturbances begin upon it. */
  readonly marks: Partial<Record<Mark, number>>;
}

export type Mark = 'ready' | 'pour' | 'stop' | 'accept';

/** What the person sees and hears. */
export interface Eyes {
  /** The bench's cue now. */
  cue(): BenchCue;
  /** The net figure as it was seen a moment ago; `null` when there is none. */
  seenNet(): number | null;
  /** Accepted into the record for this line. */
  accepted(line: number): boolean;
  /** No longer provisional, or asked about. */
  concluded(line: number): boolean;
  /** Presses "go on", or takes "carry on" after an over-pour. */
  answer(): void;
}

/** Something that goes on in steps. */
export type Going = Generator<void, void, void>;

export const createWorld = (jar: number, lines: number): World => ({
  now: 0,
  support: 0,
  jar,
  material: 0,
  perLine: Array.from({ length: lines }, () => 0),
  atLift: null,
  foreign: 0,
  loose: 0,
  airborne: 0,
  knock: 0,
  push: 0,
  line: 0,
  lastLanded: 0,
  marks: {},
});

export const forceOn = (world: World): number =>
  world.support * (world.jar + world.material + world.foreign + world.airborne) + world.loose + world.knock + world.push;

/** Material arrives in the jar. */
export const land = (world: World, mass: number): void => {
  if (mass === 0) return;
  world.material += mass;
  world.perLine[world.line] = (world.perLine[world.line] ?? 0) + mass;
  world.lastLanded = world.now;
};

export function* wait(world: World, ms: number): Going {
  const until = world.now + ms;
  while (world.now < until) yield;
}

/** Waits for something, at most so long. Says whether it came. */
export function* until(world: World, ms: number, came: () => boolean): Generator<void, boolean, void> {
  const limit = world.now + ms;
  while (world.now < limit) {
    if (came()) return true;
    yield;
  }
  return came();
}

/** A knock that rings off: half a sine of this height and length. */
export function* knock(world: World, height: number, ms: number): Going {
  const from = world.now;
  while (world.now - from < ms) {
    world.knock = height * Math.sin((Math.PI * (world.now - from)) / ms);
    yield;
  }
  world.knock = 0;
}

/** Moves the share that the pan carries, as a hand lowers or lifts. */
export function* shift(world: World, to: number, ms: number): Going {
  const from = world.support;
  const steps = Math.max(1, Math.round(ms / STEP_MS));
  for (let step = 1; step <= steps; step += 1) {
    world.support = from + ((to - from) * step) / steps;
    yield;
  }
}
