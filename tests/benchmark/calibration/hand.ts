import { byEar, createEar } from './ear';
import type { Random } from './random';
import { STEP_MS } from './scale-truth';
import { createPour, type Poured, type Pour } from './pours';
import { knock, land, shift, until, wait, type Eyes, type Going, type World } from './world';

/** One person with one jug and one line after another. */
export interface HandModel {
  readonly target: number;
  readonly tolerance: number;
  readonly division: number;
  readonly kind: Poured | 'pieces';
  /** Heeds the bench's "ease off"; else looks at the figure alone. */
  readonly heedsCue: boolean;
  /** How it follows the bench's tone (`ear.ts`); `null`: hears none. */
  readonly ear: number | null;
}

/** How a line ended for the person. `asked`: with the bench's reason. */
export interface HandLog {
  outcome: 'accepted' | 'asked' | 'over' | 'never' | 'unset';
  why: string;
  acceptedAt: number;
  /** When the last material had landed before the acceptance. */
  landedAt: number;
  truthAtAccept: number;
  littleMore: number;
  /** How far from the target the first pour of the line ended, in tolerances. */
  firstEnd: number | null;
}

const newLog = (): HandLog => ({
  outcome: 'never',
  why: '',
  acceptedAt: 0,
  landedAt: 0,
  truthAtAccept: 0,
  littleMore: 0,
  firstEnd: null,
});

/** Sets the jar down, pours every line, answers "a little more", lifts. A bench that asks is believed: the person looks, and it ends. */
export function* person(world: World, eyes: Eyes, model: HandModel, logs: HandLog[], random: Random): Going {
  yield* wait(world, random.between(2500, 4000));
  yield* setDown(world, random);
  for (let line = 0; line < world.perLine.length; line += 1) {
    world.line = line;
    const log = newLog();
    logs.push(log);
    yield* oneLine(world, eyes, model, log, random);
    if (log.outcome === 'accepted') world.marks.accept = world.now;
    else if (line === 0) return;
    else {
      // What was accepted before is still on the pan: answered, and lifted like any other.
      eyes.answer();
      break;
    }
  }
  yield* wait(world, random.between(600, 3000));
  yield* lift(world, random);
  yield* until(world, 8000, () => eyes.concluded(world.line));
  yield* wait(world, 300);
}

export function* setDown(world: World, random: Random): Going {
  const weight = world.jar + world.material + world.foreign;
  world.atLift = null;
  yield* shift(world, 1, random.between(80, 500));
  yield* knock(world, weight * random.between(0.02, 0.4), random.between(20, 60));
  // The hand lets go a moment later.
  yield* knock(world, weight * random.between(-0.05, 0.05), random.between(100, 800));
}

export function* lift(world: World, random: Random): Going {
  const weight = world.jar + world.material + world.foreign;
  yield* knock(world, weight * random.between(-0.05, 0.1), random.between(80, 400));
  world.atLift = world.perLine.slice();
  yield* shift(world, 0, random.between(120, 450));
}

function* oneLine(world: World, eyes: Eyes, model: HandModel, log: HandLog, random: Random): Going {
  const ready = (): boolean => eyes.cue().phase === 'ready' && eyes.cue().line === `line-${world.line}`;
  if (!(yield* until(world, 20_000, () => ready() || isAsking(eyes)))) {
    log.outcome = 'unset';
    return;
  }
  if (isAsking(eyes)) {
    ask(eyes, log);
    return;
  }
  world.marks.ready = world.now;
  yield* wait(world, random.between(800, 4000));
  world.marks.pour = world.now;
  const pour = model.kind === 'pieces' ? null : createPour(random, model.kind);
  if (pour === null) yield* byPieces(world, eyes, model, random);
  else yield* stream(world, eyes, model, pour, model.target, log, random);
  world.marks.stop = world.now;
  yield* untilTaken(world, eyes, model, pour, log, random);
}

/** Lifts the hand's flow with how much seems missing, and stops when the bench says so or the eye does. */
function* stream(world: World, eyes: Eyes, model: HandModel, pour: Pour, amount: number, log: HandLog, random: Random): Going {
  const first = amount / random.between(3000, 12_000);
  const least = Math.min(first, model.tolerance / random.between(700, 3000));
  const taper = random.chance(0.8) ? random.between(700, 2200) : 150;
  const guess = random.between(300, 900);
  const react = random.between(180, 400);
  const aim = model.tolerance * random.between(-0.3, 0.4);
  const pauseAt = random.chance(0.2) ? random.between(0.2, 0.8) * amount : Infinity;
  const before = world.perLine[world.line] ?? 0;
  const ear = createEar(react);
  // What is full is the hand's, whether the whole line is to come or a little more.
  const full = (first * model.target) / amount;
  let seenAt = world.now;
  let stopAt = Infinity;
  let paused = 0;
  while (world.now < stopAt) {
    const net = eyes.seenNet();
    if (net !== null && !isAsking(eyes)) seenAt = world.now;
    // Without a figure, or with a question on the screen, nobody goes on pouring for long.
    if (world.now - seenAt > 1500) return;
    const left = model.target - (net ?? before) + aim;
    if ((world.perLine[world.line] ?? 0) - before > pauseAt && paused === 0) paused = world.now + random.between(1000, 5000);
    const bySight = Math.min(first, Math.max(least, left / taper));
    const flow = model.ear === null ? bySight : byEar(ear(world.now, eyes.cue()), bySight, full, model.ear);
    const told = TAKEN.has(eyes.cue().phase) || eyes.accepted(world.line);
    const enough = told || left - flow * guess <= 0 || (model.heedsCue && eyes.cue().easeOff);
    if (enough && stopAt === Infinity) stopAt = world.now + react;
    // Nobody pours into a jar that is off the pan.
    fall(world, pour, world.now < paused || world.support < 1 ? 0 : flow);
    yield;
  }
  while (pour.airborne() > 1e-6) {
    fall(world, pour, 0);
    yield;
  }
  log.firstEnd ??= ((world.perLine[world.line] ?? 0) - model.target) / model.tolerance;
}

const fall = (world: World, pour: Pour, flow: number): void => {
  land(world, pour.step(flow));
  world.airborne = pour.airborne();
};

/** Lumps or spoonfuls, smaller towards the end, each with its knock. */
function* byPieces(world: World, eyes: Eyes, model: HandModel, random: Random): Going {
  const largest = model.target / random.between(2.5, 10);
  const least = model.tolerance * random.between(0.3, 1.1);
  for (let count = 0; count < 60; count += 1) {
    const left = model.target - (eyes.seenNet() ?? 0);
    if (left < 0.7 * model.tolerance || TAKEN.has(eyes.cue().phase) || eyes.accepted(world.line)) return;
    const piece = Math.min(largest * random.between(0.6, 1.4), Math.max(least, left * random.between(0.4, 0.95)));
    land(world, piece);
    yield* knock(world, piece * random.between(0.3, 3), random.between(20, 60));
    yield* wait(world, random.between(900, 3000));
  }
}

/** Nobody pours on once the bench has shown that it has the weight. */
const TAKEN: ReadonlySet<string> = new Set(['offer', 'over', 'hold']);
const ASKING: ReadonlySet<string> = new Set(['ask', 'question', 'strange-vessel', 'no-weight']);
const isAsking = (eyes: Eyes): boolean => {
  const { phase, block } = eyes.cue();
  return ASKING.has(phase) || (phase === 'blocked' && block !== 'moving' && block !== 'late') || block === 'wrong-vessel';
};

const ask = (eyes: Eyes, log: HandLog): void => {
  const { phase, block, doubts } = eyes.cue();
  log.outcome = 'asked';
  log.why = [phase, block ?? '', ...doubts].join(' ').trim();
};

/** Watches the bench: adds a little when it says so, ends when it accepts, asks or has an over-pour. */
function* untilTaken(world: World, eyes: Eyes, model: HandModel, pour: Pour | null, log: HandLog, random: Random): Going {
  const since = { short: world.now, over: world.now };
  let asked = 0;
  const patience = random.between(800, 2000);
  const limit = world.now + 40_000;
  while (world.now < limit) {
    if (pour !== null && !pour.done()) fall(world, pour, 0);
    const { phase } = eyes.cue();
    if (eyes.accepted(world.line)) {
      accept(world, log);
      return;
    }
    if (phase !== 'short' && !(GOING_ON.has(phase) && isShort(eyes, model))) since.short = world.now;
    asked = isAsking(eyes) ? asked + STEP_MS : Math.max(0, asked - STEP_MS);
    if (phase !== 'over') since.over = world.now;
    if (asked > 1500) {
      ask(eyes, log);
      return;
    }
    if (world.now - since.over > 1500) {
      log.outcome = 'over';
      return;
    }
    if (world.now - since.short > patience) {
      if (phase === 'short') log.littleMore += 1;
      yield* topUp(world, eyes, model, pour, log, random);
      since.short = world.now;
    }
    yield;
  }
}

const GOING_ON: ReadonlySet<string> = new Set(['ready', 'pouring']);
const isShort = (eyes: Eyes, model: HandModel): boolean => model.target - (eyes.seenNet() ?? model.target) > model.tolerance;

function* topUp(world: World, eyes: Eyes, model: HandModel, pour: Pour | null, log: HandLog, random: Random): Going {
  const left = Math.max(model.target - (eyes.seenNet() ?? model.target), 0.2 * model.tolerance);
  if (pour !== null) {
    yield* stream(world, eyes, model, pour, left, log, random);
    return;
  }
  land(world, left * random.between(0.5, 1));
  yield* knock(world, left, 40);
}

const accept = (world: World, log: HandLog): void => {
  log.outcome = 'accepted';
  log.acceptedAt = world.now;
  log.landedAt = world.lastLanded;
  log.truthAtAccept = world.perLine[world.line] ?? 0;
};
