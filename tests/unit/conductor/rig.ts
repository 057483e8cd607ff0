import { as } from '#lib/units/id';
import type { BatchId, BootId, EntryId, InstrumentId, LineId, LotId, MaterialId, PersonId, VesselId } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import { massOfText } from '#lib/units/mass-text';
import type { MassUnit, Milligrams } from '#lib/units/mass';
import { celsius, milliKelvin } from '#lib/units/temperature';
import type { MilliCelsius } from '#lib/units/temperature';
import { monotonic } from '#lib/units/time';
import type { MassReading, Motion, ProbeUse, Range } from '#lib/measure/reading';
import { alarmWants } from '#lib/bench/alarms';
import { conductor, pouredOn, settledOn, type ConductorMemory } from '#lib/bench/conductor/index';
import type { BenchView, ConductorEvent, ProbeView, ScaleView } from '#lib/bench/conductor-types';
import type { BenchCue } from '#lib/bench/cue';
import { decide, evolve, toEntry } from '#lib/work/batch/index';
import type { BatchState, Command, Decision, Entry, LinePlan, Observation, Plan, VesselPlan, Want } from '#lib/work/batch/index';

export const MAIN = as<InstrumentId>('scale-main');
export const FINE = as<InstrumentId>('scale-fine');
export const lineId = (id: string): LineId => as(id);
export const vesselId = (id: string): VesselId => as(id);

const vessel = (id: string, use: VesselPlan['use'], empty: number | null): VesselPlan => ({
  id: vesselId(id),
  name: id,
  use,
  material: 'stainless',
  empty: empty === null ? null : grams(empty),
  brimMl: null,
});

interface LineModel {
  readonly class: LinePlan['material']['class'];
  readonly target: number;
  readonly tolerance: number;
  readonly vessel: string;
  readonly more?: Partial<LinePlan>;
}

export const line = (id: string, model: LineModel): LinePlan => ({
  id: lineId(id),
  material: { id: as<MaterialId>(id), name: id, class: model.class },
  phase: model.class === 'hydroxide' ? 'hydroxide' : 'oils',
  target: grams(model.target),
  tolerance: grams(model.tolerance),
  upper: grams(model.target + 4 * model.tolerance),
  vessel: vesselId(model.vessel),
  scale: 'main',
  mode: 'gain',
  canWait: false,
  lot: { id: as<LotId>(`lot-${id}`), mark: `${id} 1` },
  superfatPerGram: null,
  ...model.more,
});

export const OLIVE = line('olive', { class: 'liquid-oil', target: 200, tolerance: 2, vessel: 'pot' });
export const SHEA = line('shea', { class: 'hard-oil', target: 100, tolerance: 1.5, vessel: 'pot' });
export const WATER = line('water', { class: 'liquid', target: 150, tolerance: 2, vessel: 'jug', more: { phase: 'liquid' } });
export const SODA = line('soda', { class: 'hydroxide', target: 70, tolerance: 0.5, vessel: 'soda-cup', more: { superfatPerGram: -660 } });

export const VESSELS: Readonly<Record<string, VesselPlan>> = {
  pot: vessel('pot', 'oils', 500),
  jug: vessel('jug', 'liquid', 200),
  'soda-cup': vessel('soda-cup', 'hydroxide', 60),
  cup: vessel('cup', 'aside', 100),
};

export const planOf = (lines: readonly LinePlan[], vessels: readonly VesselPlan[] = Object.values(VESSELS)): Plan => ({
  formula: { id: 'rig', name: 'rig', version: 1 },
  vessels,
  lines,
  joining: {
    window: { low: celsius(30), high: celsius(50) },
    allowedApart: milliKelvin(6000),
    apartLevel: 'hold',
    oilsSetAt: celsius(31),
    milkLimit: null,
    source: 'common practice, no source',
  },
});

/** A scale on the rig: what truly stands there, and its filter on the way to the wire. */
interface Pan {
  readonly division: number;
  truth: number;
  filtered: number;
  seq: number;
  unit: MassUnit;
  motion: Motion;
  range: Range;
  speaking: boolean;
  newest: MassReading | null;
  capacity: Milligrams | null;
}

const FRAME_MS = 100;
/** One pole: a set-down takes a few frames, as on a real scale; only a tare key jumps. */
const FILTER = 0.55;
const STALE_MS = 3000;

/** The conductor with a scripted bench under it and the real rules of the record behind it. Time is the rig's own. */
export class Rig {
  memory: ConductorMemory = conductor.initial({ episode: 0 });
  batch: BatchState | null = null;
  cue: BenchCue | null = null;
  now = 1000;
  boot = as<BootId>('boot-1');
  leased = true;
  probesInVessel: readonly VesselId[] = [];
  readonly temperatures: Partial<Record<ProbeUse, MilliCelsius | null>> = {};
  readonly probesLost = new Set<ProbeUse>();
  readonly entries: Entry[] = [];
  readonly refusals: string[] = [];
  readonly pans = new Map<InstrumentId, Pan>([
    [MAIN, newPan(100)],
    [FINE, newPan(10)],
  ]);
  /** Alarms run with every tick, as on the server. */
  withAlarms = false;

  start(plan: Plan): this {
    this.send({ kind: 'start', body: { mark: '26-1', plan, realm: 'test', bench: 'bench 1' } }, 'maker');
    return this.run(2);
  }

  /** Seconds of frames and ticks, ten of each a second. */
  run(seconds: number, between?: () => void): this {
    for (let step = Math.round((seconds * 1000) / FRAME_MS); step > 0; step -= 1) {
      this.now += FRAME_MS;
      between?.();
      for (const [id, pan] of this.pans) {
        pan.filtered += FILTER * (pan.truth - pan.filtered);
        if (pan.speaking) this.frame(id);
      }
      this.tick();
    }
    return this;
  }

  tick(): void {
    this.step({ kind: 'tick' });
    if (!this.withAlarms) return;
    for (const want of alarmWants(this.batch, this.view(), this.memory, monotonic(this.now))) this.send(want, 'program');
  }

  /** One frame of a scale, now. */
  frame(id: InstrumentId, more: Partial<MassReading> = {}): void {
    const pan = this.pan(id);
    pan.seq += 1;
    const text = textOf(Math.round(pan.filtered / pan.division) * pan.division, pan.unit);
    const stated = massOfText(text, pan.unit);
    const reading: MassReading = {
      kind: 'mass',
      instrument: id,
      seq: pan.seq,
      at: monotonic(this.now),
      raw: new Uint8Array([65, 66, 67]),
      text: pan.range === 'in' ? text : '',
      unit: pan.unit,
      mass: pan.range === 'in' ? (stated?.mass ?? null) : null,
      step: stated?.step ?? mg(pan.division),
      motion: pan.motion,
      range: pan.range,
      weighing: 'unstated',
      ...more,
    };
    pan.newest = reading;
    this.step({ kind: 'reading', reading });
  }

  /** What truly stands there, at once; the reading follows through the filter. */
  put(grams: number, id: InstrumentId = MAIN): this {
    this.pan(id).truth = grams * 1000;
    return this;
  }

  /** Puts it there and waits until it has settled. */
  rest(grams: number, id: InstrumentId = MAIN, seconds = 3.5): this {
    return this.put(grams, id).run(seconds);
  }

  /** A stream from what stands there to so much, in so long. */
  pour(to: number, seconds = 6, id: InstrumentId = MAIN): this {
    const pan = this.pan(id);
    const from = pan.truth;
    const began = this.now;
    return this.run(seconds, () => {
      pan.truth = from + Math.min(1, (this.now - began) / (seconds * 1000)) * (to * 1000 - from);
    });
  }

  /** The reading is another one without any way there. */
  jump(grams: number, id: InstrumentId = MAIN): this {
    const pan = this.pan(id);
    pan.truth = grams * 1000;
    pan.filtered = pan.truth;
    return this;
  }

  press(key: 'go-on' | 'back' | 'silence', hold = false): this {
    this.step({ kind: 'press', press: { key, hold } });
    return this;
  }

  take(code: string, hold = true): this {
    const card = this.seen.cards.findIndex((one) => one.code === code);
    this.step({ kind: 'take', card, code, hold });
    return this;
  }

  step(event: ConductorEvent): void {
    const after = conductor.step(this.memory, this.batch, this.view(), event, monotonic(this.now));
    this.memory = after.memory;
    this.cue = after.cue;
    const person = event.kind === 'press' || event.kind === 'take' || event.kind === 'ask' || event.kind === 'job';
    for (const want of after.wants) this.send(want, person ? 'maker' : 'program');
  }

  send(want: Want | Pick<Command, 'kind' | 'body'>, role: 'maker' | 'program'): Decision {
    const head = {
      batch: as<BatchId>('batch-1'),
      expectedVersion: null,
      by: as<PersonId>('person-1'),
      via: 'bench',
      role,
      intent: null,
      boot: this.boot,
      mono: Math.round(this.now),
      wall: 1_760_000_000_000 + Math.round(this.now),
      offsetMin: 60,
      observation: this.observation(want),
    } as const;
    const decision = decide(this.batch, { ...head, ...want } as Command);
    if (!decision.ok) {
      this.refusals.push(`${want.kind} ${decision.refusal.code}`);
      return decision;
    }
    for (const draft of decision.drafts) {
      const version = (this.batch?.version ?? 0) + 1;
      const { batch, by, via, intent, boot, mono, wall, offsetMin } = head;
      const entryHead = { id: as<EntryId>(`entry-${version}`), batch, version, realm: 'test', v: 1, by, via, intent, boot } as const;
      const entry = toEntry(draft, { ...entryHead, mono, wall, offsetMin });
      this.entries.push(entry);
      this.batch = evolve(this.batch, entry);
    }
    this.step({ kind: 'batch' });
    return decision;
  }

  view(): BenchView {
    return {
      scales: [this.scaleView(MAIN, 'main'), this.scaleView(FINE, 'fine')],
      probes: Object.entries(this.temperatures).map(([use, value]) => this.probeView(use as ProbeUse, value)),
      leased: this.leased,
      boot: this.boot,
      probesInVessel: this.probesInVessel,
    };
  }

  get seen(): BenchCue {
    if (this.cue === null) throw new Error('no step yet');
    return this.cue;
  }

  get state(): BatchState {
    if (this.batch === null) throw new Error('no batch');
    return this.batch;
  }

  line(id: string) {
    const line = this.state.lines[lineId(id)];
    if (line === undefined) throw new Error(`no line ${id}`);
    return line;
  }

  pan(id: InstrumentId): Pan {
    const pan = this.pans.get(id);
    if (pan === undefined) throw new Error(`no scale ${id}`);
    return pan;
  }

  kinds(): readonly string[] {
    return this.entries.map((entry) => entry.kind);
  }

  /** Another process: the record is there, the conductor's memory is not. */
  restart(): this {
    this.boot = as<BootId>('boot-2');
    this.memory = conductor.initial({ episode: 0 });
    for (const pan of this.pans.values()) pan.seq = 0;
    return this.run(2);
  }

  private observation(want: Pick<Command, 'kind' | 'body'>): Observation {
    const body = want.body as { weighed?: { instrument: InstrumentId }; instrument?: InstrumentId | null };
    const open = this.batch?.open === null ? undefined : this.batch?.lines[this.batch.open];
    const instrument = body.weighed?.instrument ?? body.instrument ?? (open?.plan.scale === 'fine' ? FINE : MAIN);
    return {
      settled: settledOn(this.memory, instrument, monotonic(this.now)),
      poured: pouredOn(this.memory, this.batch),
      lye: this.temperatures.lye ?? null,
      oils: this.temperatures.oils ?? null,
      milk: null,
      checks: {},
    };
  }

  private scaleView(id: InstrumentId, role: 'main' | 'fine'): ScaleView {
    const { newest, capacity, division } = this.pan(id);
    const age = newest === null ? Infinity : this.now - newest.at;
    const freshness = age > STALE_MS ? 'lost' : age > 500 ? 'late' : 'fresh';
    return { id, role, capacity, division: mg(division), freshness, reading: newest, period: null };
  }

  private probeView(use: ProbeUse, value: MilliCelsius | null): ProbeView {
    const freshness = this.probesLost.has(use) ? 'lost' : 'fresh';
    return { use, freshness, value: freshness === 'lost' ? null : value, suspect: null };
  }
}

const newPan = (division: number): Pan => ({
  division,
  truth: 0,
  filtered: 0,
  seq: 0,
  unit: 'g',
  motion: 'unstated',
  range: 'in',
  speaking: true,
  newest: null,
  capacity: null,
});

const textOf = (mass: number, unit: MassUnit): string => {
  if (unit === 'g') return (mass / 1000).toFixed(2);
  return unit === 'oz' ? (mass / 28_349.523).toFixed(3) : (mass / 453_592.37).toFixed(5);
};
