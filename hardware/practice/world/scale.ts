import type { Random } from './random';
import { OVER_BY, UNDER_BY } from './scale-model';
import type { ScaleModel } from './scale-model';
import { STEP_MS } from './step';

/** What the scale shows at its last update. `mass` is a whole number of divisions, in mg; it means nothing out of range. */
export interface ScaleDisplay {
  readonly mass: number;
  readonly motion: 'stable' | 'moving';
  readonly range: 'in' | 'over' | 'under';
}

export interface Scale {
  readonly model: ScaleModel;
  /** One step of the world with this force on the pan, in mg. */
  step(force: number): void;
  display(): ScaleDisplay;
  /** The scale's own zero key: the figure jumps to zero without any descent of the load. Ignored while moving, as scales do. */
  pressZero(): boolean;
  /** Shakes the bench: this amplitude in mg for this long. */
  shake(amplitude: number, ms: number): void;
  /** How far the zero has wandered, mg: for tests of the bound. */
  readonly wandered: number;
}

export const createScale = (model: ScaleModel, random: Random): Scale => {
  const respond = responder(model.settling);
  const filter = movingAverage(Math.max(1, Math.round(model.filterMs / STEP_MS)));
  // Averaging n independent samples divides their deviation by √n: the model states what is left.
  const sampleNoise = model.noise * Math.sqrt(filter.length);
  const shaking = shaker(model.vibration, random);
  const drift = wander(model.drift, random);
  const shown = movingMark(Math.max(2, Math.round(model.motion.windowMs / model.updateMs) + 1));
  let creep = 0;
  let zero = 0;
  let untilUpdate = 0;
  let display: ScaleDisplay = { mass: 0, motion: 'moving', range: 'in' };

  const update = (): void => {
    const value = filter.mean() - zero;
    shown.push(value);
    const mass = Math.round(value / model.division) * model.division;
    const range = value > model.capacity + OVER_BY * model.division ? 'over' : value < -UNDER_BY * model.division ? 'under' : 'in';
    display = { mass: mass === 0 ? 0 : mass, motion: shown.spread() <= model.motion.band ? 'stable' : 'moving', range };
  };

  return {
    model,
    step(force) {
      const cell = respond(force);
      creep += ((model.creep.share * cell - creep) * STEP_MS) / model.creep.tauMs;
      filter.push(cell + creep + drift.step() + shaking.step() + sampleNoise * random.gauss());
      untilUpdate -= STEP_MS;
      if (untilUpdate <= 0) {
        update();
        untilUpdate += model.updateMs;
      }
    },
    display: () => display,
    pressZero() {
      if (display.motion !== 'stable') return false;
      zero += filter.mean() - zero;
      shown.shift();
      update();
      return true;
    },
    shake: (amplitude, ms) => shaking.start(amplitude, ms),
    get wandered() {
      return drift.value();
    },
  };
};

/** Load to cell. The swing is integrated semi-implicitly, which stays stable at this step. */
const responder = (settling: ScaleModel['settling']): ((force: number) => number) => {
  let x = 0;
  if (settling.order === 1) {
    const share = 1 - Math.exp(-STEP_MS / settling.ms);
    return (force) => (x += (force - x) * share);
  }
  const dt = STEP_MS / settling.ms;
  let v = 0;
  return (force) => {
    v = (v + (force - x) * dt) / (1 + 2 * settling.damping * dt);
    return (x += v * dt);
  };
};

const movingAverage = (length: number): { length: number; push(value: number): void; mean(): number } => {
  const ring = new Float64Array(length);
  let at = 0;
  return {
    length,
    push(value) {
      ring[at] = value;
      at = (at + 1) % length;
    },
    mean: () => ring.reduce((sum, value) => sum + value, 0) / length,
  };
};

/** Spread of the last figures. Until it has seen enough of them everything counts as moving. */
const movingMark = (length: number): { push(value: number): void; spread(): number; shift(): void } => {
  let recent: number[] = [];
  return {
    push(value) {
      recent.push(value);
      if (recent.length > length) recent.shift();
    },
    spread: () => (recent.length < length ? Infinity : Math.max(...recent) - Math.min(...recent)),
    // After a zero the old figures speak of another zero.
    shift: () => void (recent = []),
  };
};

const shaker = (model: ScaleModel['vibration'], random: Random): { step(): number; start(amplitude: number, ms: number): void } => {
  let until = random.wait(model.everyMs);
  let burst: { amplitude: number; left: number; of: number; hertz: number } | null = null;
  const start = (amplitude: number, ms: number): void => {
    burst = { amplitude, left: ms, of: ms, hertz: random.between(5, 30) };
  };
  return {
    start,
    step() {
      until -= STEP_MS;
      if (until <= 0) {
        until = random.wait(model.everyMs);
        start(model.amplitude * random.between(0.5, 1.5), model.ms * random.between(0.5, 1.5));
      }
      if (burst === null) return 0;
      burst.left -= STEP_MS;
      const { amplitude, left, of, hertz } = burst;
      if (left <= 0) burst = null;
      const swell = Math.sin(Math.PI * Math.max(0, 1 - left / of));
      return amplitude * swell * Math.sin((2 * Math.PI * hertz * left) / 1000);
    },
  };
};

/** A zero pulled back towards true while it wanders (Ornstein-Uhlenbeck), held inside its limit. */
const wander = (model: ScaleModel['drift'], random: Random): { step(): number; value(): number } => {
  const pull = STEP_MS / model.tauMs;
  const kick = (model.limit / 2) * Math.sqrt(2 * pull);
  let value = 0;
  return {
    step() {
      value += -value * pull + kick * random.gauss();
      value = Math.min(model.limit, Math.max(-model.limit, value));
      return value;
    },
    value: () => value,
  };
};
