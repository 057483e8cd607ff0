import type { InstrumentConfig, ScaleRole } from '#lib/measure/instrument';
import { PortError } from '#lib/measure/link/port';
import type { PortOpener, SerialSettings } from '#lib/measure/link/port';
import type { Timers } from '#lib/measure/link/timers';
import type { ScaleShape } from '#lib/measure/shape';
import { as } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import type { Clock, Monotonic } from '#lib/units/time';
import { createBenchLine } from './bench-line';
import type { BenchLine } from './bench-line';
import { createScene } from './scene';
import type { Scene, SceneLine } from './scene-types';
import { createProbeVoice } from './voice/probe-voice';
import { createScaleVoice } from './voice/scale-voice';
import type { Voice } from './voice/voice';
import { random } from './world/random';
import { WORKSHOP_SCALES } from './world/scale-model';
import { createWorld } from './world/world';
import type { World } from './world/world';

export interface PracticeBenchOptions {
  readonly seed: number;
  readonly clock: Pick<Clock, 'now'>;
  readonly timers: Timers;
}

export interface PracticeBench {
  readonly opener: PortOpener;
  readonly configs: readonly InstrumentConfig[];
  readonly scene: Scene;
  /** The simulated truth, for tests: what a scale shows may be asked of its readings, what it carries of this. Brought up to now. */
  world(): World;
}

const PATH: Readonly<Record<SceneLine, string>> = {
  main: 'practice:main',
  fine: 'practice:fine',
  lye: 'practice:lye',
  oils: 'practice:oils',
  room: 'practice:room',
};
/** The two scales speak different shapes, so that swapped names are found out here too. */
const SHAPE: Readonly<Record<ScaleRole, ScaleShape>> = { main: 'header-comma', fine: 'letter-reply' };
const SERIAL: SerialSettings = { baudRate: 9_600, frame: '8N1' };

/** How often the bench gets its turn. */
const TURN_MS = 20;
/** After a longer standstill than this the hands and scales skip the rest; only the kettles live through it. */
const LONGEST_CATCH_UP_MS = 10_000;

interface Wired {
  readonly line: BenchLine;
  readonly voice: Voice;
}

/** The practice bench behind the same opener as a serial port: two scales at ten frames a second and three probes at one. */
export const createPracticeBench = ({ seed, clock, timers }: PracticeBenchOptions): PracticeBench => {
  const world = createWorld({ seed, scales: WORKSHOP_SCALES });
  let last = clock.now();
  let turn: unknown = null;

  const catchUp = (): void => {
    const now = clock.now();
    const behind = now - last;
    last = now;
    const lived = Math.min(behind, LONGEST_CATCH_UP_MS);
    world.warmth.advance((behind - lived) / 1000);
    world.advance(lived, () => {
      for (const { voice } of Object.values(wired)) voice.step();
    });
  };
  /** While a port is open turns run; with none nothing keeps the process alive. */
  const turnsAsNeeded = (): void => {
    if (turn !== null) timers.clear(turn);
    const open = Object.values(wired).some(({ line }) => line.open);
    turn = open ? timers.set(takeTurn, TURN_MS) : null;
  };
  const takeTurn = (): void => {
    catchUp();
    turnsAsNeeded();
  };
  const wired = wire(world, seed, () => clock.now(), turnsAsNeeded);

  const scene = createScene(world, {
    plugged: (what) => wired[what].line.plugged,
    plug: (what) => wired[what].line.plug(),
    unplug: (what) => wired[what].line.unplug(),
  });

  return {
    opener: {
      async open(path, _settings, events) {
        catchUp();
        const what = LINES.find((line) => PATH[line] === path);
        if (what === undefined) throw new PortError('missing', `${path} is not on the practice bench`);
        return wired[what].line.connect(path, events, wired[what].voice);
      },
    },
    configs: CONFIGS,
    scene: {
      ...scene,
      act(act, hint) {
        catchUp();
        return scene.act(act, hint);
      },
    },
    world() {
      catchUp();
      return world;
    },
  };
};

const LINES = Object.keys(PATH) as readonly SceneLine[];

const wire = (world: World, seed: number, now: () => Monotonic, changed: () => void): Readonly<Record<SceneLine, Wired>> => {
  const scale = (role: ScaleRole): Wired => {
    const weighing = world.weighings[role];
    if (weighing === undefined) throw new Error(`the practice bench has no ${role} scale`);
    const line = createBenchLine(changed);
    const voice = createScaleVoice({
      scale: weighing.scale,
      shape: SHAPE[role],
      unit: 'g',
      rate: 10,
      random: random(seed, `voice ${role}`),
      send: (bytes) => line.carry(bytes, now()),
    });
    return { line, voice };
  };
  const probe = (place: 'lye' | 'oils' | 'room'): Wired => {
    const line = createBenchLine(changed);
    const send = (bytes: Uint8Array): void => line.carry(bytes, now());
    return { line, voice: createProbeVoice({ warmth: world.warmth, place, rate: 1, random: random(seed, `voice ${place}`), send }) };
  };
  return { main: scale('main'), fine: scale('fine'), lye: probe('lye'), oils: probe('oils'), room: probe('room') };
};

const scaleConfig = (role: ScaleRole, name: string): InstrumentConfig => ({
  kind: 'scale',
  id: as(`practice-${role}`),
  role,
  name,
  path: PATH[role],
  shape: SHAPE[role],
  serial: SERIAL,
  capacity: mg(WORKSHOP_SCALES[role].capacity),
  division: mg(WORKSHOP_SCALES[role].division),
});

const probeConfig = (use: 'lye' | 'oils' | 'room'): InstrumentConfig => ({
  kind: 'probe',
  id: as(`practice-${use}`),
  name: `${use} probe`,
  path: PATH[use],
  use,
  shape: 'probe-line',
  serial: SERIAL,
});

const CONFIGS: readonly InstrumentConfig[] = [
  scaleConfig('main', 'big scale'),
  scaleConfig('fine', 'small scale'),
  probeConfig('lye'),
  probeConfig('oils'),
  probeConfig('room'),
];
