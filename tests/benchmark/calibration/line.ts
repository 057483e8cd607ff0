import { monotonic } from '#lib/units/time';
import type { BenchCue } from '#lib/bench/cue';
import type { MaterialClass } from '#lib/work/batch/index';
import { acceptedOf, createBench, type Bench } from './bench';
import { disturb, driftOf, type Disturbance } from './disturb';
import { drawEar } from './ear';
import { person, type HandLog, type HandModel } from './hand';
import { POURED } from './pours';
import { createRandom, type Random } from './random';
import { createScale, FITTED, STEP_MS, UNSEEN } from './scale-truth';
import { createWire } from './wire-truth';
import { createWorld, forceOn, type Eyes, type World } from './world';

/** One line as it truly went. */
export interface LineResult {
  readonly outcome: HandLog['outcome'];
  readonly why: string;
  readonly disturbance: Disturbance | null;
  readonly pieces: boolean;
  readonly heedsCue: boolean;
  /** Heeds the cue and hears the tone. */
  readonly hears: boolean;
  /** Accepted although the truth was more than a tolerance and more than a division away. */
  readonly wrong: boolean;
  /** Wrong by what was in the jar at acceptance or when it was lifted, and not asked about at the lift either. */
  readonly undetected: boolean;
  /** Accepted, and the true weight lies more than a division outside the tolerance about the target. */
  readonly outOfBand: boolean;
  /** A right weight was asked about at the lift. */
  readonly needlessQuestion: boolean;
  /** From the last material landed to the acceptance, s. */
  readonly seconds: number;
  readonly littleMore: number;
  readonly firstEnd: number | null;
}

export interface RunModel {
  readonly seed: number;
  /** Constants may be fitted on `fitted`; the table is of `unseen`. */
  readonly families: 'fitted' | 'unseen';
  readonly disturbance: Disturbance | null;
  readonly pieces: boolean;
  /** The bench without its doubts: what the rules are worth. */
  readonly credulous?: boolean;
  /** Nobody hears the tone: what the cue alone is worth. */
  readonly deaf?: boolean;
  /** Called after every step, to look into a single line. */
  readonly watch?: (world: World, cue: BenchCue, shown: number) => void;
}

interface Drawn {
  readonly hand: Omit<HandModel, 'ear'>;
  readonly material: MaterialClass;
  readonly jar: number;
  readonly lines: number;
}

const DIVISIONS: readonly [number, ...number[]] = [1000, 1000, 500, 100, 100, 10];

const draw = (random: Random, pieces: boolean): Drawn => {
  const division = random.pick(DIVISIONS);
  const tolerance = Math.round((division * random.logBetween(2, 20)) / division) * division;
  const target = Math.round(tolerance / random.logBetween(0.005, 0.05));
  const kind = pieces ? 'pieces' : random.pick(POURED);
  return {
    hand: { target, tolerance, division, kind, heedsCue: random.chance(0.5) },
    material: pieces ? 'hard-oil' : kind === 'water' ? 'liquid' : 'liquid-oil',
    jar: Math.max(random.logBetween(60, 900) * division, 6000),
    lines: random.chance(0.3) ? 2 : 1,
  };
};

const EYE_MS = 200;

/** Runs one jar's lines with one person, one scale and at most one disturbance: a result for each line begun. */
export const runLines = ({
  seed,
  families,
  disturbance,
  pieces,
  credulous = false,
  deaf = false,
  watch,
}: RunModel): readonly LineResult[] => {
  const random = createRandom(seed, 1);
  const { hand: drawn, material, jar, lines } = draw(random, pieces);
  const hand: HandModel = { ...drawn, ear: deaf || !drawn.heedsCue ? null : drawEar(createRandom(seed, 6)) };
  const family = families === 'fitted' ? random.pick(FITTED) : random.pick(UNSEEN);
  const scale = createScale(createRandom(seed, 2), family, hand.division, driftOf(disturbance, random));
  const wire = createWire(createRandom(seed, 3));
  const bench = createBench({ ...hand, material, jar, lines, credulous });
  const world = createWorld(jar, lines);
  const logs: HandLog[] = [];
  const seen: { at: number; net: number | null }[] = [];
  const eyes: Eyes = {
    cue: () => bench.cue,
    seenNet: () => {
      while (seen.length > 1 && (seen[1]?.at ?? 0) <= world.now - EYE_MS) seen.shift();
      return seen[0]?.net ?? null;
    },
    accepted: (line) => acceptedOf(bench.batch, line) !== null,
    concluded: (line) => bench.batch.question !== null || acceptedOf(bench.batch, line)?.provisional === false,
    answer: () => answer(bench, world.now),
  };
  bench.step(0, { kind: 'tick' });
  const hands = person(world, eyes, hand, logs, createRandom(seed, 4));
  const trouble = disturbance === null ? null : disturb(world, wire, disturbance, hand, createRandom(seed, 5));
  for (let done = false; !done && world.now < 180_000;) {
    world.now += STEP_MS;
    done = hands.next().done === true;
    trouble?.next();
    scale.advance(forceOn(world));
    for (const reading of wire.step(world.now, scale.shown(), hand.division)) {
      bench.hear(Math.max(world.now, reading.at), { ...reading, at: monotonic(Math.max(world.now, reading.at)) });
      seen.push({ at: world.now, net: bench.cue.poured });
    }
    if (world.now % 100 === 0) bench.step(world.now, { kind: 'tick' });
    watch?.(world, bench.cue, scale.shown());
  }
  return logs.map((log, index) => resultOf(log, index, { bench, world, hand, disturbance, pieces }));
};

const answer = (bench: Bench, now: number): void => {
  const { goOn, cards } = bench.cue;
  const card = cards.findIndex(({ code }) => code === 'carry-on');
  if (card !== -1) bench.step(now, { kind: 'take', card, code: 'carry-on', hold: true });
  else if (goOn !== null) bench.step(now, { kind: 'press', press: { key: 'go-on', hold: goOn.hold } });
};

interface Ran {
  readonly bench: Bench;
  readonly world: World;
  readonly hand: HandModel;
  readonly disturbance: Disturbance | null;
  readonly pieces: boolean;
}

const resultOf = (log: HandLog, index: number, { bench, world, hand, disturbance, pieces }: Ran): LineResult => {
  const taken = acceptedOf(bench.batch, index);
  const limit = Math.max(hand.tolerance, hand.division);
  const net = taken?.net ?? 0;
  const wrong = log.outcome === 'accepted' && Math.abs(net - log.truthAtAccept) > limit;
  const questioned = bench.batch.question !== null;
  const wrongInTheEnd = log.outcome === 'accepted' && Math.abs(net - ((world.atLift ?? world.perLine)[index] ?? 0)) > limit;
  return {
    outcome: log.outcome,
    why: log.why,
    disturbance,
    pieces,
    heedsCue: hand.heedsCue,
    hears: hand.ear !== null && hand.ear < 1,
    wrong,
    undetected: (wrong || wrongInTheEnd) && !questioned,
    outOfBand: log.outcome === 'accepted' && Math.abs(log.truthAtAccept - hand.target) > hand.tolerance + hand.division,
    needlessQuestion: log.outcome === 'accepted' && !wrongInTheEnd && questioned,
    seconds: (log.acceptedAt - log.landedAt) / 1000,
    littleMore: log.littleMore,
    firstEnd: log.firstEnd,
  };
};
