import { as, type PersonId } from '#lib/units/id';
import { monotonic } from '#lib/units/time';
import { learnHand, type Hand, type Stopped } from '#lib/bench/hand';
import { createBench, type Bench } from '../bench';
import { createEar } from '../ear';
import { setDown } from '../hand';
import { createPour } from '../pours';
import { createRandom, type Random } from '../random';
import { createScale, FITTED, STEP_MS, UNSEEN, type Family } from '../scale-truth';
import { createWire } from '../wire-truth';
import { createWorld, forceOn, land, wait, type Going, type World } from '../world';
import { drawPerson, enough, wants, type Manner, type Person } from './person';

/** How one pour ended. `error`: (landed − target) / tolerance. */
export interface Ended {
  readonly error: number;
  readonly stopped: Stopped | null;
}

const HAND = as<PersonId>('hand-of-truth');
const FAMILIES = [...FITTED, ...UNSEEN] as readonly [Family, ...Family[]];
const DIVISIONS = [1000, 500, 100, 100] as const;

export interface Workplace {
  readonly family: Family;
  readonly division: number;
}

export const drawWorkplace = (random: Random): Workplace => ({ family: random.pick(FAMILIES), division: random.pick([...DIVISIONS]) });

interface PourModel extends Workplace {
  readonly person: Person;
  readonly manner: Manner;
  readonly hand: Hand;
  readonly seed: number;
}

/** One line: a jar set down, one pour up to the target, and what the record then says. */
export const pourOnce = ({ person, manner, hand, seed, family, division }: PourModel): Ended => {
  const random = createRandom(seed, 1);
  const tolerance = Math.round((division * random.logBetween(3, 20)) / division) * division;
  const target = Math.round(tolerance / random.logBetween(0.005, 0.03));
  const jar = Math.max(random.logBetween(60, 900) * division, 6000);
  const scale = createScale(createRandom(seed, 2), family, division);
  const wire = createWire(createRandom(seed, 3));
  const material = person.kind === 'water' ? 'liquid' : 'liquid-oil';
  const told = { ...hand, person: HAND };
  const bench = createBench({ division, target, tolerance, material, jar, lines: 1, credulous: false, hand: told });
  const world = createWorld(jar, 1);
  const seen: { at: number; net: number | null }[] = [];
  const figure = (): number | null => {
    while (seen.length > 1 && (seen[1]?.at ?? 0) <= world.now - person.eye) seen.shift();
    return seen[0]?.net ?? null;
  };
  const ended = { error: Number.NaN };
  const going = oneLine({ world, bench, person, manner, target, tolerance, figure, random: createRandom(seed, 4), ended });
  bench.step(0, { kind: 'tick' });
  for (let done = false; !done && world.now < 120_000;) {
    world.now += STEP_MS;
    done = going.next().done === true;
    scale.advance(forceOn(world));
    for (const reading of wire.step(world.now, scale.shown(), division)) {
      const at = Math.max(world.now, reading.at);
      bench.hear(at, { ...reading, at: monotonic(at) });
      seen.push({ at: world.now, net: bench.cue.poured });
    }
    if (world.now % 100 === 0) bench.step(world.now, { kind: 'tick' });
  }
  return { error: ended.error, stopped: bench.stops.at(-1) ?? null };
};

interface Line {
  readonly world: World;
  readonly bench: Bench;
  readonly person: Person;
  readonly manner: Manner;
  readonly target: number;
  readonly tolerance: number;
  readonly figure: () => number | null;
  readonly random: Random;
  readonly ended: { error: number };
}

function* oneLine({ world, bench, person, manner, target, tolerance, figure, random, ended }: Line): Going {
  yield* wait(world, 2500);
  yield* setDown(world, random);
  for (const until = world.now + 20_000; bench.cue.phase !== 'ready' && world.now < until;) yield;
  if (bench.cue.phase !== 'ready') return;
  yield* wait(world, random.between(800, 2500));
  const pour = createPour(random, person.kind);
  const ear = createEar(person.react);
  let stopAt = Infinity;
  let flow = 0;
  while (world.now < stopAt) {
    const before = { net: figure(), cue: bench.cue, tone: ear(world.now, bench.cue), target, flow };
    flow = wants(person, manner, before);
    if (stopAt === Infinity && enough(person, manner, before))
      stopAt = world.now + Math.max(80, person.react + person.scatter * random.gauss());
    land(world, pour.step(flow));
    world.airborne = pour.airborne();
    yield;
  }
  for (const until = world.now + 15_000; !pour.done() && world.now < until;) {
    land(world, pour.step(0));
    world.airborne = pour.airborne();
    yield;
  }
  ended.error = ((world.perLine[0] ?? 0) - target) / tolerance;
  // It settles, and what is too much or too little is carried on with: the record then says how it ended.
  yield* wait(world, 4000);
  answer(bench, world.now);
  yield* wait(world, 1500);
}

const answer = (bench: Bench, now: number): void => {
  const card = bench.cue.cards.findIndex(({ code }) => code === 'carry-on');
  if (card !== -1) bench.step(now, { kind: 'take', card, code: 'carry-on', hold: true });
  else if (bench.cue.goOn !== null) bench.step(now, { kind: 'press', press: { key: 'go-on', hold: true } });
};

export interface Hands {
  readonly person: Person;
  readonly learnt: Hand;
  /** Mean |error| in tolerances of each way, over the scored pours. */
  readonly figure: number;
  readonly guess: number;
  /** The cue before it has learnt anything, and after. */
  readonly fixed: number;
  readonly cue: number;
  readonly over: number;
  readonly short: number;
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

const off = (errors: readonly number[]): number => mean(errors.map(Math.abs));

/** A person at their own bench: so many pours to be learnt from, then the same pours again in every manner. */
export const runHands = (seed: number, learning: number, scored: number): Hands => {
  const random = createRandom(seed, 7);
  const person = drawPerson(random);
  const place = drawWorkplace(random);
  const stops: Stopped[] = [];
  let hand: Hand = { seen: 0, lag: 0 };
  for (let n = 0; n < learning; n += 1) {
    const { stopped } = pourOnce({ ...place, person, manner: 'cue', hand, seed: seed * 1009 + n });
    if (stopped !== null) stops.push(stopped);
    hand = learnHand(stops);
  }
  const ends = (manner: Manner, known: Hand): readonly number[] =>
    Array.from({ length: scored }, (_, n) => pourOnce({ ...place, person, manner, hand: known, seed: seed * 1009 + 500 + n }).error).filter(
      (error) => !Number.isNaN(error),
    );
  const cued = ends('cue', hand);
  return {
    person,
    learnt: hand,
    figure: off(ends('figure', hand)),
    guess: off(ends('guess', hand)),
    fixed: off(ends('cue', { seen: 0, lag: 0 })),
    cue: off(cued),
    over: cued.filter((error) => error > 1).length / cued.length,
    short: cued.filter((error) => error < -1).length / cued.length,
  };
};
