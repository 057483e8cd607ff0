import type { InstrumentConfig, ScaleRole } from '#lib/measure/instrument';
import type { MassReading } from '#lib/measure/reading';
import { as } from '#lib/units/id';
import type { InstrumentId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import type { Plan } from '#lib/work/batch/index';
import { chance } from './chance';
import { frameOf, stepOf } from './frame';
import type { Oddity, Speaking } from './frame';
import { Filter, natureOf } from './nature';
import type { Nature } from './nature';

interface Vessel {
  readonly empty: number;
  contents: number;
}

/** One scale, its pan, and how it speaks. Masses in mg, times in ms of the run. */
export interface Pan extends Speaking {
  readonly role: ScaleRole;
  readonly period: number;
  readonly filter: Filter;
  vessel: string | null;
  /** What the next readings show of a set-down or a lift: this much of the way. */
  readonly onTheWay: number[];
  from: number;
  flow: { rate: number; left: number; at: number } | null;
  /** The scale's own tare. */
  tare: number;
  silent: boolean;
  lost: boolean;
  shakenUntil: number;
  readonly odd: Oddity[];
  nextAt: number;
  last: number;
}

export const MODEL_SCALES: Readonly<Record<ScaleRole, { id: InstrumentId; division: number; capacity: number }>> = {
  main: { id: as('scale-main'), division: 100, capacity: 5_000_000 },
  fine: { id: as('scale-fine'), division: 10, capacity: 300_000 },
};
/**
 * A jug tipped right over, mg per ms. Had more than a vessel weighs come between two frames, its scale's own tare key, pressed just then, could be
 * seen in none of them.
 */
const FASTEST = 250;
const SERIAL = { baudRate: 9_600, frame: '8N1' } as const;

/** What a person said of the instruments. */
export const modelConfigs = (seed: number): readonly InstrumentConfig[] => [
  ...(['main', 'fine'] as const).map((role): InstrumentConfig => {
    const { id, division, capacity } = MODEL_SCALES[role];
    const made = { role, name: `${role} scale`, path: `model:${role}`, shape: 'header-comma', serial: SERIAL } as const;
    return { kind: 'scale', id, ...made, capacity: mg(capacity), division: natureOf(seed, role).untold ? null : mg(division) };
  }),
  ...(['lye', 'oils'] as const).map((use): InstrumentConfig => {
    return { kind: 'probe', id: as(`probe-${use}`), name: `${use} probe`, path: `model:${use}`, use, shape: 'probe-line', serial: SERIAL };
  }),
];

/** What the scales are like in one run. */
export interface WorldSetup {
  readonly seed: number;
  /** Milliseconds between readings. */
  readonly period: number;
  /** Whether the frames carry a mark of motion. */
  readonly marked: boolean;
}

/** The bench as it truly is: vessels on the table and on the pans, what is in them, and what the scales say of it. It moves only when told to. */
export class ModelWorld {
  readonly pans: Readonly<Record<ScaleRole, Pan>>;
  readonly vessels = new Map<string, Vessel>();
  /** What stood where, as it changed, and what was in it then. */
  readonly placed: { readonly at: number; readonly role: ScaleRole; readonly vessel: string | null; readonly contents: number }[] = [];
  readonly #marked: boolean;
  readonly #chance: () => number;

  constructor({ seed, period, marked }: WorldSetup) {
    this.#marked = marked;
    this.#chance = chance(seed);
    this.pans = { main: newPan('main', period, seed), fine: newPan('fine', period, seed) };
  }

  /** What the plan says its vessels weigh; one without a mass gets one. A bottle and a stranger's jar are always about. */
  clearTable(plan: Plan, now: number): void {
    this.vessels.clear();
    for (const pan of Object.values(this.pans)) {
      Object.assign(pan, { vessel: null, flow: null, from: 0 });
      this.#note(pan.role, now, null);
    }
    for (const { id, empty } of plan.vessels) this.vessels.set(id, { empty: empty ?? 1_234_500, contents: 0 });
    for (const { n } of plan.moulds ?? []) this.vessels.set(`mould:${n}`, { empty: 240_300 + n, contents: 0 });
    for (const { id } of plan.parts ?? []) this.vessels.set(`part:${id}`, { empty: 154_800, contents: 0 });
    this.vessels.set('bottle', { empty: 301_200, contents: 480_000 });
    this.vessels.set('stranger', { empty: 133_700, contents: 0 });
  }

  /** True load of a pan now. */
  loadOf(role: ScaleRole, now: number): number {
    const pan = this.pans[role];
    this.#pourOn(pan, now);
    const vessel = pan.vessel === null ? undefined : this.vessels.get(pan.vessel);
    return vessel === undefined ? 0 : vessel.empty + vessel.contents;
  }

  whereIs(vessel: string): ScaleRole | null {
    return (['main', 'fine'] as const).find((role) => this.pans[role].vessel === vessel) ?? null;
  }

  setDown(name: string, role: ScaleRole, now: number): void {
    const pan = this.pans[role];
    if (pan.vessel !== null || this.whereIs(name) !== null || !this.vessels.has(name)) return;
    this.#move(pan, now, name);
  }

  lift(role: ScaleRole, now: number): void {
    if (this.pans[role].vessel !== null) this.#move(this.pans[role], now, null);
  }

  /** Into what stands there, or out of it with a negative mass, as a stream that takes a while, and no less than such a mass can. */
  pour(role: ScaleRole, mass: number, ms: number, now: number): void {
    const pan = this.pans[role];
    if (pan.vessel === null || mass === 0) return;
    pan.filter.follow(this.loadOf(role, now), now);
    pan.flow = { rate: mass / Math.max(1, ms, Math.abs(mass) / FASTEST), left: mass, at: now };
  }

  /** Off the pan, where no scale sees it. */
  pourInHand(name: string, mass: number): void {
    const vessel = this.vessels.get(name);
    if (vessel !== undefined && this.whereIs(name) === null) vessel.contents = Math.max(0, vessel.contents + mass);
  }

  /** What stood on this pan at a moment. */
  stoodOn(role: ScaleRole, at: number): string | null {
    return this.placed.findLast((one) => one.role === role && one.at <= at)?.vessel ?? null;
  }

  pressTare(role: ScaleRole, now: number): void {
    this.pans[role].tare = this.loadOf(role, now);
  }

  /** True steps of what this scale shows now, mg. */
  divisionOf(role: ScaleRole, now: number): number {
    return stepOf(this.pans[role], this.loadOf(role, now)).step;
  }

  /** What the scale has wandered by, mg. */
  driftOf(role: ScaleRole, now: number): number {
    const { nature, division } = this.pans[role];
    return (nature.drift * nature.counts * division * now) / 60_000;
  }

  /** Milliseconds to the frame after this one. */
  intervalOf({ period, nature }: Pan): number {
    return nature.jitter === 0 ? period : Math.max(1, Math.round(period * (1 + nature.jitter * (2 * this.#chance() - 1))));
  }

  /** The next reading of this scale. `at` is the boot's own time. */
  read(role: ScaleRole, now: number): Omit<MassReading, 'at'> {
    const pan = this.pans[role];
    const { nature } = pan;
    const load = this.loadOf(role, now);
    const way = pan.onTheWay.shift();
    const followed = pan.filter.follow(load, now);
    const seen = nature.rise > 0 ? followed : way === undefined ? load : pan.from + way * (load - pan.from);
    const steps = stepOf(pan, load);
    const { step } = steps;
    const shaken = now < pan.shakenUntil ? Math.round(((this.#chance() - 0.5) * 40 * pan.division) / step) : this.#noise(nature.noise);
    const shown = Math.round((seen + this.driftOf(role, now) - pan.tare) / step + shaken) * step;
    const moves = way !== undefined || now < pan.shakenUntil || Math.abs(shown - pan.last) > 2 * step;
    const moving = moves && !nature.early;
    pan.last = shown;
    pan.seq += 1;
    const frame = frameOf(pan, shown, steps, pan.odd.shift() ?? null);
    return { ...frame, motion: this.#marked ? (moving ? 'moving' : 'stable') : 'unstated' };
  }

  #move(pan: Pan, now: number, vessel: string | null): void {
    pan.from = this.loadOf(pan.role, now);
    pan.filter.follow(pan.from, now);
    pan.flow = null;
    pan.vessel = vessel;
    this.#note(pan.role, now, vessel);
    // A hand takes a moment: no scale shows a whole vessel from one frame to the next.
    pan.onTheWay.splice(0, pan.onTheWay.length, 0.45);
  }

  #note(role: ScaleRole, at: number, vessel: string | null): void {
    this.placed.push({ at, role, vessel, contents: this.vessels.get(vessel ?? '')?.contents ?? 0 });
  }

  #pourOn(pan: Pan, now: number): void {
    const { flow } = pan;
    const vessel = pan.vessel === null ? undefined : this.vessels.get(pan.vessel);
    if (flow === null || vessel === undefined) return;
    const step = flow.rate * (now - flow.at);
    const poured = Math.abs(step) >= Math.abs(flow.left) ? flow.left : step;
    vessel.contents = Math.max(0, vessel.contents + poured);
    pan.flow = poured === flow.left ? null : { rate: flow.rate, left: flow.left - poured, at: now };
  }

  #noise(noise: Nature['noise']): number {
    const drawn = this.#chance();
    if (noise === 'none') return 0;
    if (noise === 'much') return Math.round(NOISY * (drawn + this.#chance() + this.#chance() - 1.5));
    return drawn < 0.04 ? -1 : drawn > 0.96 ? 1 : 0;
  }
}

/** Three draws so wide: no division off in half of the frames, one in most others, two in 2 %. */
const NOISY = 1.5;

const newPan = (role: ScaleRole, period: number, seed: number): Pan => ({
  ...MODEL_SCALES[role],
  role,
  period,
  ...made(natureOf(seed, role)),
  vessel: null,
  onTheWay: [],
  from: 0,
  flow: null,
  tare: 0,
  unit: 'g',
  silent: false,
  lost: false,
  shakenUntil: 0,
  odd: [],
  seq: 0,
  nextAt: role === 'main' ? 0 : 37,
  last: 0,
});

const made = (nature: Nature): Pick<Pan, 'nature' | 'filter'> => ({ nature, filter: new Filter(nature.rise) });
