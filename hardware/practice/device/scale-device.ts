import { UNITS } from '../encode/index';
import { createScaleVoice } from '../voice/scale-voice';
import { liftOff, setDown } from '../world/hands';
import { measuredPour, pourByEye } from '../world/pour';
import type { PourPlace } from '../world/pour';
import { random } from '../world/random';
import { scaleModel } from '../world/scale-model';
import { createWorld } from '../world/world';
import type { Weighing } from '../world/pan';
import type { World } from '../world/world';
import type { DeviceAct } from './acts';
import type { DeviceOptions } from './args';
import { answer } from './instrument';
import type { Answers, Device, DeviceParts } from './instrument';

const mg = (grams: number): number => Math.round(grams * 1_000);
/** How many grams a second a pour goes when nobody says. */
const BRISK = 80;

export const createScaleDevice = (options: Extract<DeviceOptions, { kind: 'scale' }>, parts: DeviceParts): Device => {
  const { seed, shape, rate, division } = options;
  const world = createWorld({ seed, scales: { main: scaleModel(options.capacity, division) } });
  const at = world.weighings.main;
  if (at === undefined) throw new Error('a world without its scale');
  const { pan, scale } = at;
  let unit = options.unit;
  const voice = createScaleVoice({ scale, shape, unit, rate, random: random(seed, 'voice'), send: parts.say });
  const byHand = handiwork(world, at, division);
  const waiting: DeviceAct[] = [];
  let doing: DeviceAct | null = null;

  const atOnce: Answers = {
    stop() {
      world.hands.stop();
      waiting.length = 0;
      return null;
    },
    splash: () => (world.splash('main') > 0 ? null : 'no-scale'),
    lean({ grams }) {
      pan.leaning = mg(grams);
      return null;
    },
    noise({ grams, seconds }) {
      scale.shake(mg(grams ?? (3 * division) / 1_000), (seconds ?? 1) * 1_000);
      return null;
    },
    'zero-key': () => (scale.pressZero() ? null : 'moving'),
    unit(act) {
      if (!UNITS[shape].includes(act.unit)) return `a ${shape} frame states ${UNITS[shape].join(', ')} only`;
      unit = act.unit;
      voice.unit(unit);
      return null;
    },
    'stop-frames'() {
      voice.silence(true);
      return null;
    },
    'start-frames'() {
      voice.silence(false);
      return null;
    },
    truth: () => null,
  };

  const settle = (act: DeviceAct, why: string | null): void => {
    if (why === null) parts.done(act.act);
    else parts.refused(act.act, why);
  };
  /** The next act of the hands, once they are free. */
  const goOn = (): void => {
    if (world.hands.doing !== null) return;
    if (doing !== null) settle(doing, null);
    doing = waiting.shift() ?? null;
    if (doing === null) return;
    const why = answer(byHand, doing);
    if (why === null) return;
    settle(doing, why);
    doing = null;
  };

  return {
    pass: (ms) =>
      world.advance(ms, () => {
        voice.step();
        goOn();
      }),
    hear: (bytes) => voice.hear(bytes),
    joined: () => voice.joined(),
    tell(act) {
      if (act.act in byHand) waiting.push(act);
      else settle(act, answer(atOnce, act));
    },
    truth: () => ({
      carried: world.carried('main'),
      shown: scale.display().mass,
      motion: scale.display().motion,
      range: scale.display().range,
      unit,
      vessel: pan.standing?.name ?? null,
      contents: pan.standing?.contents ?? null,
      airborne: world.hands.airborne,
      wet: pan.wet,
      leaning: pan.leaning,
    }),
  };
};

/** What hands do at this scale: vessels by name, and a jug that never runs dry. */
const handiwork = (world: World, at: Weighing, division: number): Answers => {
  const { pan, scale } = at;
  const { hands, chance } = world;
  const between = (needs: number, out: boolean): PourPlace | null => {
    if (pan.standing === null) return null;
    const jug = world.vessel('the jug', { empty: mg(300), contents: 0 });
    if (!out && jug.contents < 2 * needs) world.fill(jug, 2 * needs);
    return out ? { from: pan.standing, to: jug, pan, scale } : { from: jug, to: pan.standing, pan, scale };
  };
  const measured = (grams: number, seconds: number | undefined, out: boolean): string | null => {
    const place = between(mg(grams), out);
    if (place === null) return 'pan-empty';
    hands.take(() => measuredPour(place, mg(grams), seconds ?? 2 + grams / BRISK));
    return null;
  };
  return {
    'set-down'({ grams, name = 'vessel' }) {
      if (pan.standing !== null) return 'pan-occupied';
      if (grams === undefined && !world.vessels.has(name)) return 'unknown-vessel: say how many grams';
      const vessel = world.vessel(name, { empty: mg(grams ?? 0), contents: 0 });
      hands.take(() => setDown(at, vessel, chance));
      return null;
    },
    lift() {
      if (pan.standing === null) return 'pan-empty';
      hands.take(() => liftOff(pan, chance));
      return null;
    },
    pour: ({ grams, seconds }) => measured(grams, seconds, false),
    'take-out': ({ grams, seconds }) => measured(grams, seconds, true),
    'pour-by-eye'({ grams, tolerance }) {
      const place = between(mg(grams), false);
      if (place === null) return 'pan-empty';
      const aim = { aim: mg(grams), tolerance: Math.max(2 * division, mg(tolerance ?? grams / 200)) };
      hands.take(() => pourByEye(place, aim, { easeOff: () => false, visible: () => true }, chance));
      return null;
    },
  };
};
