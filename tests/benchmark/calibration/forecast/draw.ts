import type { Random } from '../random';
import { NO_HANDS, type Hands, type VesselNature } from './vessel-truth';

/** `none`: it is left alone. */
export type ActKind = 'none' | 'bath' | 'bath and out' | 'hob' | 'stir' | 'lid' | 'poured' | 'lifted';

/** Something done to a vessel once, s. */
export interface DrawnAct {
  readonly kind: ActKind;
  readonly from: number;
  readonly until: number;
  readonly hands: Hands;
  /** °C of a bath, or of what is poured in; and how many J/K of the latter. */
  readonly celsius: number;
  readonly added: number;
}

export interface DrawnProbe {
  readonly everyS: number;
  readonly lagS: number;
  readonly noise: number;
  readonly step: number;
  /** Slow wandering of the liquid about its mean, K. */
  readonly wander: number;
  readonly gaps: readonly (readonly [from: number, until: number])[];
  readonly spikes: number;
}

export interface DrawnVessel {
  readonly nature: VesselNature;
  readonly start: number;
  readonly act: DrawnAct;
  readonly probe: DrawnProbe;
}

export interface DrawnRoom {
  readonly base: number;
  readonly swing: number;
  readonly periodS: number;
  readonly phase: number;
  /** What a probe in it says it is, off by its error; `null`: there is none. */
  readonly told: number | null;
}

export const drawRoom = (random: Random): DrawnRoom => {
  const base = random.between(17, 26.5);
  return {
    base,
    swing: random.between(0, 0.6),
    periodS: random.between(1500, 6000),
    phase: random.between(0, 2 * Math.PI),
    told: random.chance(0.7) ? base + random.between(-0.4, 0.4) : null,
  };
};

const WALLS = [
  { name: 'steel', perKg: 500, mass: [0.25, 0.9], emissivity: [0.1, 0.35], inner: [120, 350] },
  { name: 'plastic', perKg: 1900, mass: [0.1, 0.3], emissivity: [0.85, 0.95], inner: [35, 70] },
  { name: 'glass', perKg: 830, mass: [0.35, 1], emissivity: [0.85, 0.93], inner: [70, 160] },
] as const;

const within = (random: Random, [low, high]: readonly [number, number]): number => random.between(low, high);

const drawNature = (kind: 'lye' | 'oils', random: Random): VesselNature => {
  const wall = kind === 'oils' ? WALLS[0] : random.pick([...WALLS] as [(typeof WALLS)[number], ...(typeof WALLS)[number][]]);
  const mass = kind === 'lye' ? random.logBetween(0.25, 1.6) : random.logBetween(0.6, 4.5);
  const litres = mass / (kind === 'lye' ? 1.3 : 0.9);
  const side = 0.055 * litres ** (2 / 3) * random.between(0.8, 1.3);
  const hard = kind === 'oils' && random.chance(0.6);
  return {
    kind,
    liquid: mass * (kind === 'lye' ? random.between(3300, 3700) : random.between(1950, 2150)),
    wall: wall.perKg * within(random, wall.mass) * (0.5 + litres / 3),
    inner: side * within(random, wall.inner),
    side,
    top: 0.02 * litres ** (2 / 3) * random.between(0.7, 1.5),
    air: random.between(1.6, 2.8),
    emissivity: within(random, wall.emissivity),
    bench: random.between(0, 0.5),
    activity: kind === 'lye' ? random.between(0.35, 0.9) : 0,
    setting: hard
      ? {
          at: random.between(26, 38),
          over: random.between(3, 12),
          heat: mass * random.between(0.05, 0.35) * random.between(80_000, 130_000),
          supercool: random.between(0, 2),
        }
      : null,
  };
};

const KINDS: Readonly<Record<'lye' | 'oils', readonly [ActKind, ...ActKind[]]>> = {
  lye: ['bath', 'bath and out', 'stir', 'lid', 'lifted'],
  oils: ['hob', 'stir', 'lid', 'poured', 'lifted'],
};

const drawAct = (nature: VesselNature, random: Random): DrawnAct => {
  const kind = random.pick(KINDS[nature.kind]);
  const from = random.between(360, 2400);
  const lasting = {
    none: 0,
    bath: 1e9,
    'bath and out': random.between(240, 720),
    hob: random.between(90, 300),
    stir: random.between(60, 240),
    lid: 1e9,
  };
  const until = from + (kind === 'poured' ? 0 : kind === 'lifted' ? random.between(40, 300) : lasting[kind]);
  const bath = { capacity: random.between(2, 8) * 4180, conductance: nature.side * random.between(80, 250) };
  const hands: Hands = {
    bath: kind === 'bath' || kind === 'bath and out' ? bath : null,
    hob: kind === 'hob' ? random.between(80, 250) * (nature.liquid / 3000) : 0,
    stirred: kind === 'stir' ? random.between(1.5, 4) : 1,
    lid: kind === 'lid',
  };
  const celsius = kind === 'poured' ? random.between(17, 24) : random.between(6, 20);
  return { kind, from, until, hands, celsius, added: kind === 'poured' ? nature.liquid * random.between(0.1, 0.9) : 0 };
};

const drawProbe = (random: Random): DrawnProbe => ({
  everyS: random.pick([1, 1, 1, 2, 5]),
  lagS: random.between(4, 20),
  noise: random.between(0.01, 0.07),
  step: random.pick([0.0625, 0.1, 5 / 9]),
  wander: random.between(0.01, 0.08),
  gaps: Array.from({ length: random.pick([0, 1, 2]) }, () => {
    const from = random.between(200, 3600);
    return [from, from + random.between(15, 240)] as const;
  }),
  spikes: random.chance(0.3) ? 0.002 : 0,
});

export const drawVessel = (kind: 'lye' | 'oils', random: Random): DrawnVessel => {
  const nature = drawNature(kind, random);
  const start = kind === 'lye' ? random.between(58, 92) : random.between(48, 80);
  return { nature, start, act: drawAct(nature, random), probe: drawProbe(random) };
};

/** The same where nobody does anything. */
export const drawAlone = (kind: 'lye' | 'oils', random: Random): DrawnVessel => {
  const never = { kind: 'none', from: Infinity, until: Infinity, hands: NO_HANDS, celsius: 20, added: 0 } as const;
  return { ...drawVessel(kind, random), act: never };
};

/** What is done to it at a moment, and what is done as long as nobody does anything else. */
export const handsAt = ({ act }: DrawnVessel, t: number): Hands => (t >= act.from && t < act.until ? act.hands : NO_HANDS);
