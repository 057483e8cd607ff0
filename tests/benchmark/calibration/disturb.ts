import type { Random } from './random';
import { lift, setDown } from './hand';
import { land, shift, wait, type Going, type Mark, type World } from './world';
import type { WireTruth } from './wire-truth';

/** What goes wrong on a bench besides pouring. One of them in each disturbed line, at a random moment. */
export const DISTURBANCES = [
  'leaning hand',
  'drops',
  'spoon put in',
  'object dropped in',
  'cable touches',
  'draught',
  'vibration',
  'table bump',
  'drift',
  'jar swapped',
  'lifted early',
  'splash on the pan',
  'frames missing',
  'frames in a burst',
  'unit changed',
] as const;
export type Disturbance = (typeof DISTURBANCES)[number];

export interface DisturbModel {
  readonly tolerance: number;
  readonly division: number;
}

/** When it begins: upon this mark, and so much later. */
const BEFORE_ACCEPTANCE: readonly [Mark, ...Mark[]] = ['ready', 'pour', 'stop'];
const MOMENTS: readonly [Mark, ...Mark[]] = ['ready', 'pour', 'stop', 'stop', 'accept'];

/** Divisions a minute by which a drifting scale drifts, besides its own. */
export const driftOf = (disturbance: Disturbance | null, random: Random): number =>
  disturbance === 'drift' ? (random.chance(0.5) ? 1 : -1) * random.logBetween(1, 10) : 0;

export function* disturb(world: World, wire: WireTruth, what: Disturbance, model: DisturbModel, random: Random): Going {
  // Lifting or changing the jar after it was accepted is what a person should do.
  const mark = random.pick(what === 'jar swapped' || what === 'lifted early' ? BEFORE_ACCEPTANCE : MOMENTS);
  const delay = mark === 'pour' ? random.between(0, 8000) : random.between(0, 2500);
  const limit = 60_000;
  while (world.marks[mark] === undefined && world.now < limit) yield;
  yield* wait(world, delay);
  yield* HAPPENS[what](world, wire, model, random);
}

type Happens = (world: World, wire: WireTruth, model: DisturbModel, random: Random) => Going;

/** Masses and forces are those of things and hands, mg, whatever the tolerance: a cap to a ladle, a fingertip to an elbow. */
const grams = (random: Random, least: number, most: number): number => 1000 * random.logBetween(least, most);

const nothing: Happens = function* () {
  yield;
};

/** Pushes with a force of this moment for so long. */
function* pushing(world: World, ms: number, force: (since: number) => number): Going {
  const from = world.now;
  while (world.now - from < ms) {
    world.push = force(world.now - from);
    yield;
  }
  world.push = 0;
}

const leaning: Happens = function* (world, _wire, _model, random) {
  const force = grams(random, 3, 1000) * (random.chance(0.8) ? 1 : -0.3);
  const tremor = random.logBetween(0.005, 0.1) * Math.abs(force);
  const rise = random.between(100, 800);
  let shake = 0;
  yield* pushing(world, random.between(700, 15_000), (since) => {
    shake += -0.15 * shake + 0.55 * tremor * random.gauss();
    return force * Math.min(1, since / rise) + shake;
  });
};

const drops: Happens = function* (world, _wire, _model, random) {
  const every = random.between(400, 3000);
  for (let count = Math.floor(random.between(4, 20)); count > 0; count -= 1) {
    if (world.support === 1) land(world, random.between(25, 60));
    yield* wait(world, every * random.between(0.7, 1.3));
  }
};

const spoon: Happens = function* (world, _wire, _model, random) {
  const mass = grams(random, 4, 80);
  world.foreign += mass;
  yield* wait(world, random.between(1000, 20_000));
  if (random.chance(0.8)) world.foreign -= mass;
};

const dropped: Happens = function* (world, _wire, _model, random) {
  world.foreign += grams(random, 1, 80);
  yield* pushing(world, 40, () => 3 * world.foreign);
};

const cable: Happens = function* (world, _wire, _model, random) {
  const force = grams(random, 0.3, 30) * (random.chance(0.5) ? 1 : -1);
  const rise = random.between(50, 500);
  const from = world.now;
  // On the jar it goes with the jar; on the pan it stays.
  const onJar = random.chance(0.5);
  const ends = (): boolean => onJar && world.support === 0;
  while (!ends()) {
    world.push = force * Math.min(1, (world.now - from) / rise) * (onJar ? world.support : 1);
    yield;
  }
  world.push = 0;
};

const draught: Happens = function* (world, _wire, { division }, random) {
  const strength = random.between(1, 6) * division;
  const calm = 10 / random.between(300, 2500);
  let force = 0;
  yield* pushing(world, random.between(3000, 20_000), () => {
    force += -calm * force + strength * Math.sqrt(2 * calm) * random.gauss();
    return force;
  });
};

const vibration: Happens = function* (world, _wire, { division }, random) {
  const strength = random.between(1, 30) * division;
  const hertz = random.between(4, 24);
  yield* pushing(world, random.between(2000, 20_000), (since) => strength * Math.sin((2 * Math.PI * hertz * since) / 1000));
};

const bump: Happens = function* (world, _wire, { division }, random) {
  const strength = random.logBetween(10, 1000) * division * (random.chance(0.5) ? 1 : -1);
  const hertz = random.between(4, 12);
  yield* pushing(
    world,
    random.between(150, 900),
    (since) => strength * Math.exp(-since / 150) * Math.cos((2 * Math.PI * hertz * since) / 1000),
  );
};

const swapped: Happens = function* (world, _wire, model, random) {
  if (world.marks.accept !== undefined) return;
  yield* lift(world, random);
  yield* wait(world, random.between(600, 4000));
  // Accepted just as the hand took hold: then this was the lift.
  if ((world.marks.accept as number | undefined) !== undefined) return;
  // Another jar: kept three tolerances apart, as the bench asks for.
  const apart = model.tolerance * random.logBetween(3, 60) * (random.chance(0.5) ? 1 : -1);
  world.jar = Math.max(world.jar * 0.3, world.jar + apart);
  world.material = 0;
  world.perLine.fill(0);
  yield* setDown(world, random);
};

const liftedEarly: Happens = function* (world, _wire, _model, random) {
  if (world.support < 1 || world.marks.accept !== undefined) return;
  yield* lift(world, random);
  yield* wait(world, random.between(300, 5000));
  yield* setDown(world, random);
};

const splash: Happens = function* (world, _wire, _model, random) {
  // Some drops jump out of the jar: onto the table more often than onto the pan.
  const mass = Math.min(grams(random, 0.05, 3), world.material * 0.2);
  world.material -= mass;
  world.perLine[world.line] = (world.perLine[world.line] ?? 0) - mass;
  if (random.chance(0.4)) world.loose += mass;
  yield* shift(world, world.support, 10);
};

const missing: Happens = function* (world, wire, _model, random) {
  wire.loseUntil(world.now + random.between(400, 5000));
  yield;
};

const burst: Happens = function* (world, wire, _model, random) {
  wire.holdUntil(world.now + random.between(400, 4000));
  yield;
};

const unit: Happens = function* (world, wire, _model, random) {
  wire.speak(random.pick(['oz', 'lb']));
  yield* wait(world, random.between(500, 20_000));
  wire.speak('g');
};

const HAPPENS: Readonly<Record<Disturbance, Happens>> = {
  'leaning hand': leaning,
  drops,
  'spoon put in': spoon,
  'object dropped in': dropped,
  'cable touches': cable,
  draught,
  vibration,
  'table bump': bump,
  drift: nothing,
  'jar swapped': swapped,
  'lifted early': liftedEarly,
  'splash on the pan': splash,
  'frames missing': missing,
  'frames in a burst': burst,
  'unit changed': unit,
};
