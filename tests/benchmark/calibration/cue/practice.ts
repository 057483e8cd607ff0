import { createWorld } from '#hardware/practice/world/world';
import { setDown } from '#hardware/practice/world/hands';
import { pourByEye } from '#hardware/practice/world/pour';
import { WORKSHOP_SCALES } from '#hardware/practice/world/scale-model';
import { as, type PersonId } from '#lib/units/id';
import { learnHand, NEW_HAND, type Hand, type Stopped } from '#lib/bench/hand';
import { mg } from '#lib/units/mass';
import { massOfText } from '#lib/units/mass-text';
import { monotonic } from '#lib/units/time';
import { createBench } from '../bench';
import { createRandom } from '../random';
import { SCALE } from '../wire-truth';

const FRAME_MS = 100;
const RAW = new Uint8Array([0x53, 0x54, 0x2c, 0x30]);
const DIVISION = WORKSHOP_SCALES.main.division;

/** One pour of the practice bench's own pourer, whose every chance hangs on `seed`; `cued`: the screen's cue reaches it. */
const pourOnce = (
  seed: number,
  cued: boolean,
  hand: Hand,
  unpractised = true,
): { readonly error: number; readonly stopped: Stopped | null } => {
  const random = createRandom(seed, 9);
  const tolerance = Math.round(random.logBetween(400, 3000) / DIVISION) * DIVISION;
  const target = Math.round(tolerance / random.logBetween(0.004, 0.02));
  const empty = 300_000;
  const told = { ...hand, person: as<PersonId>('practice-pourer') };
  const model = {
    division: DIVISION,
    target,
    tolerance,
    material: 'liquid-oil',
    jar: empty,
    lines: 1,
    credulous: false,
    hand: told,
  } as const;
  const bench = createBench(model);
  const world = createWorld({ seed, scales: { main: WORKSHOP_SCALES.main } });
  const at = world.weighings.main;
  if (at === undefined) throw new Error('the practice bench has no scale');
  const jar = world.vessel('jar', { empty, contents: 0 });
  const jug = world.vessel('jug', { empty: 300_000, contents: 2 * target + 100_000 });
  const easeOff = (): boolean => cued && bench.cue.easeOff;
  const pass = (done: () => boolean, most: number): void => {
    for (const until = world.now + most; !done() && world.now < until;) {
      world.advance(FRAME_MS);
      const { mass, motion } = at.scale.display();
      const text = (mass / 1000).toFixed(1);
      const stated = massOfText(text, 'g');
      const reading = {
        kind: 'mass',
        instrument: SCALE,
        seq: world.now / FRAME_MS,
        at: monotonic(world.now),
        raw: RAW,
        text,
        unit: 'g',
      } as const;
      bench.hear(world.now, { ...reading, mass: stated?.mass ?? null, step: mg(DIVISION), motion, range: 'in', weighing: 'gross' });
    }
  };
  pass(() => false, 3000);
  world.hands.take(() => setDown(at, jar, world.chance));
  pass(() => bench.cue.phase === 'ready', 20_000);
  const place = { from: jug, to: jar, ...at };
  world.hands.take(() => pourByEye(place, { aim: target, tolerance, unpractised }, { easeOff, visible: () => true }, world.chance));
  pass(() => world.hands.doing === null, 90_000);
  const error = (jar.contents - target) / tolerance;
  pass(() => false, 3500);
  const carryOn = bench.cue.cards.findIndex(({ code }) => code === 'carry-on');
  if (carryOn !== -1) bench.step(world.now, { kind: 'take', card: carryOn, code: 'carry-on', hold: true });
  else if (bench.cue.goOn !== null) bench.step(world.now, { kind: 'press', press: { key: 'go-on', hold: true } });
  pass(() => false, 1500);
  return { error, stopped: bench.stops.at(-1) ?? null };
};

/** Mean |error| of the practice pourer in tolerances, with the cue and without it, after it has been learnt from; `practised` judges by eye. */
export const practicePours = (
  seed: number,
  learning: number,
  scored: number,
): { readonly cued: number; readonly uncued: number; readonly practised: number } => {
  const stops: Stopped[] = [];
  for (let n = 0; n < learning; n += 1) {
    const { stopped } = pourOnce(seed * 7919 + n, true, learnHand(stops));
    if (stopped !== null) stops.push(stopped);
  }
  const hand = stops.length === 0 ? NEW_HAND : learnHand(stops);
  const off = (cued: boolean, unpractised = true): number =>
    Array.from({ length: scored }, (_, n) => Math.abs(pourOnce(seed * 7919 + 1000 + n, cued, hand, unpractised).error)).reduce(
      (a, b) => a + b,
      0,
    ) / scored;
  return { cued: off(true), uncued: off(false), practised: off(true, false) };
};
