import type { Pan, Weighing } from './pan';
import { massOf } from './vessel';
import type { Vessel } from './vessel';
import type { Random } from './random';
import { STEP_MS } from './step';
import type { Task } from './task';

/** Two hands: a queue of tasks, done one after the other. */
export interface Hands {
  /** What they do now. */
  readonly doing: Task['name'] | null;
  readonly airborne: number;
  take(...tasks: readonly (() => Task)[]): void;
  step(): void;
  /** Ends a pour early, and forgets what was to come. */
  stop(): void;
  /** Everything is let go at once: for a world that begins anew. */
  drop(): void;
}

/** Tasks are made when their turn comes: a pour looks at the figure then, not when it was asked for. */
export const createHands = (): Hands => {
  const queue: (() => Task)[] = [];
  let task: Task | null = null;
  return {
    get doing() {
      return task?.name ?? (queue.length > 0 ? 'pause' : null);
    },
    get airborne() {
      return task?.airborne() ?? 0;
    },
    take: (...tasks) => void queue.push(...tasks),
    step() {
      task ??= queue.shift()?.() ?? null;
      if (task?.step() === true) task = null;
    },
    stop() {
      queue.length = 0;
      task?.stop();
    },
    drop() {
      queue.length = 0;
      task = null;
    },
  };
};

const plain = (name: Task['name'], step: () => boolean): Task => ({ name, step, airborne: () => 0, stop: () => {} });

/** A hand takes hold and lets go without a jerk: 0 to 1 with a flat start and end. */
const smooth = (x: number): number => (x >= 1 ? 1 : x * x * (3 - 2 * x));

/** How long hands wait for a figure to stand still before they go on all the same, ms. */
const PATIENCE_MS = 4_000;

/** Fetches the vessel, waits for the empty scale to stand still, then lets the pan take the weight, with a knock. */
export const setDown = ({ pan, scale }: Weighing, vessel: Vessel, random: Random): Task => {
  let reach = random.between(1_000, 1_800);
  let patience = PATIENCE_MS;
  let began = false;
  const takes = random.between(200, 400);
  const knock = random.between(0.05, 0.2);
  let since = 0;
  return plain('set-down', () => {
    reach -= STEP_MS;
    patience -= STEP_MS;
    began ||= reach <= 0 && (scale.display().motion === 'stable' || patience <= 0);
    if (!began) return false;
    pan.standing = vessel;
    since += STEP_MS;
    const share = smooth(since / takes);
    pan.borne = share;
    pan.push = share < 1 ? massOf(vessel) * knock * Math.sin(Math.PI * share) : 0;
    return share === 1;
  });
};

/** Reaches and takes the vessel off; drops on the glass stay. `then`: what is done with it beside the scale. */
export const liftOff = (pan: Pan, random: Random, then: () => void = () => {}): Task => {
  let reach = random.between(300, 700);
  const takes = random.between(250, 450);
  let since = 0;
  return plain('lift', () => {
    if ((reach -= STEP_MS) > 0) return false;
    since += STEP_MS;
    pan.borne = 1 - smooth(since / takes);
    if (pan.borne > 0) return false;
    pan.standing = null;
    then();
    return true;
  });
};

/** A probe that leaned in the vessel is taken out: whatever leaned on the pan is gone. */
export const takeProbeOut = (pan: Pan, random: Random): Task => {
  let reach = random.between(300, 700);
  return plain('take-probe-out', () => {
    if ((reach -= STEP_MS) > 0) return false;
    pan.leaning = 0;
    return true;
  });
};

export const pause = (ms: number): Task => {
  let left = ms;
  return plain('pause', () => (left -= STEP_MS) <= 0);
};
