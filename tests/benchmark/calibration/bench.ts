import { as, type BatchId, type BootId, type EntryId, type LineId, type MaterialId, type PersonId, type VesselId } from '#lib/units/id';
import { mg, type Milligrams } from '#lib/units/mass';
import { celsius, milliKelvin } from '#lib/units/temperature';
import { monotonic } from '#lib/units/time';
import type { BenchCue } from '#lib/bench/cue';
import type { BenchView, ConductorEvent } from '#lib/bench/conductor-types';
import { stoppedBy, type Stopped } from '#lib/bench/hand';
import { conductor, settledOn, type ConductorMemory } from '#lib/bench/conductor/index';
import {
  decide,
  evolve,
  toEntry,
  type BatchState,
  type Command,
  type LinePlan,
  type MaterialClass,
  type Plan,
} from '#lib/work/batch/index';
import type { MassReading } from '#lib/measure/reading';
import { SCALE } from './wire-truth';

/** The conductor with the real rules of the record behind it, as the server runs them: every want is decided at once. */
export interface Bench {
  readonly cue: BenchCue;
  readonly batch: BatchState;
  /** Pours that ended by the cue, as the record tells them. */
  readonly stops: readonly Stopped[];
  step(now: number, event: ConductorEvent): void;
  hear(now: number, reading: MassReading): void;
}

const BOOT = as<BootId>('boot-of-truth');
const BATCH = as<BatchId>('batch-of-truth');
const PERSON = as<PersonId>('person-of-truth');
export const JAR = as<VesselId>('jar');
const OTHER = as<VesselId>('other');

export interface BenchModel {
  readonly division: number;
  readonly target: number;
  readonly tolerance: number;
  readonly material: MaterialClass;
  readonly jar: number;
  /** Lines that go into the same jar one after another. */
  readonly lines: number;
  /** Takes every doubt from the conductor's memory as soon as it arises. */
  readonly credulous: boolean;
  /** What the cue knows of the hand. */
  readonly hand?: NonNullable<BenchView['hand']>;
}

const lineOf = (model: BenchModel, index: number, vessel: VesselId): LinePlan => ({
  id: as<LineId>(`line-${index}`),
  material: { id: as<MaterialId>('material'), name: 'oil', class: model.material },
  phase: 'oils',
  target: mg(model.target),
  tolerance: mg(model.tolerance),
  upper: null,
  vessel,
  scale: 'main',
  mode: 'gain',
  canWait: false,
  lot: { id: as('lot'), mark: 'lot 1' },
  superfatPerGram: null,
});

const planOf = (model: BenchModel): Plan => ({
  formula: { id: 'truth', name: 'truth', version: 1 },
  vessels: [
    { id: JAR, name: 'jar', use: 'oils', material: 'stainless', empty: mg(Math.round(model.jar)), brimMl: null },
    { id: OTHER, name: 'other', use: 'aside', material: 'glass', empty: mg(Math.round(model.jar * 3 + 50_000)), brimMl: null },
  ],
  lines: [...Array.from({ length: model.lines }, (_, index) => lineOf(model, index, JAR)), lineOf(model, model.lines, OTHER)],
  joining: {
    window: { low: celsius(30), high: celsius(50) },
    allowedApart: milliKelvin(6000),
    apartLevel: 'hold',
    oilsSetAt: null,
    milkLimit: null,
    source: 'common practice, no source',
  },
});

const withoutDoubts = (memory: ConductorMemory): ConductorMemory =>
  memory.pour === null ? memory : { ...memory, pour: { ...memory.pour, doubts: [], steps: [], bulges: [] } };

export const createBench = (model: BenchModel): Bench => {
  let memory = conductor.initial({ episode: 0 });
  let batch: BatchState | null = null;
  let cue: BenchCue | null = null;
  let newest: MassReading | null = null;
  let entries = 0;
  const stops: Stopped[] = [];

  const view = (now: number): BenchView => ({
    scales: [
      {
        id: SCALE,
        role: 'main',
        capacity: null,
        division: mg(model.division),
        freshness: newest === null || now - newest.at > 3000 ? 'lost' : 'fresh',
        reading: newest,
        period: null,
      },
    ],
    probes: [],
    leased: true,
    boot: BOOT,
    ...(model.hand === undefined ? {} : { hand: model.hand }),
  });

  const send = (now: number, command: Pick<Command, 'kind' | 'body'>, role: 'program' | 'maker'): void => {
    const head = {
      batch: BATCH,
      expectedVersion: null,
      by: PERSON,
      via: 'bench',
      role,
      intent: null,
      boot: BOOT,
      mono: Math.round(now),
      wall: 1_700_000_000_000 + Math.round(now),
      offsetMin: 0,
      observation: { settled: settledOn(memory, SCALE), lye: null, oils: null, milk: null, checks: {} },
    } as const;
    const decision = decide(batch, { ...head, ...command } as Command);
    if (!decision.ok) return;
    for (const draft of decision.drafts) {
      entries += 1;
      const { via, intent, boot, mono, wall, offsetMin } = head;
      const version = (batch?.version ?? 0) + 1;
      const entryHead = { id: as<EntryId>(`e${entries}`), batch: BATCH, version, realm: 'test', v: 1, by: PERSON } as const;
      const entry = toEntry(draft, { ...entryHead, via, intent, boot, mono, wall, offsetMin });
      const stopped = stoppedBy(entry);
      if (stopped !== null) stops.push(stopped);
      batch = evolve(batch, entry);
    }
    step(now, { kind: 'batch' });
  };

  const step = (now: number, event: ConductorEvent): void => {
    const after = conductor.step(memory, batch, view(now), event, monotonic(now));
    memory = model.credulous ? withoutDoubts(after.memory) : after.memory;
    cue = after.cue;
    const role = event.kind === 'press' || event.kind === 'take' ? 'maker' : 'program';
    for (const want of after.wants) send(now, want, role);
  };

  send(0, { kind: 'start', body: { mark: '1', plan: planOf(model), realm: 'test', bench: 'truth' } }, 'maker');
  return {
    get cue() {
      if (cue === null) throw new Error('no step yet');
      return cue;
    },
    get batch() {
      if (batch === null) throw new Error('the batch did not start');
      return batch;
    },
    stops,
    step,
    hear(now, reading) {
      newest = reading;
      step(now, { kind: 'reading', reading });
    },
  };
};

/** Newest standing weight of a line in the record. */
export const acceptedOf = (
  batch: BatchState,
  index: number,
): { readonly net: Milligrams; readonly entry: EntryId; readonly provisional: boolean } | null => {
  const one = batch.lines[as<LineId>(`line-${index}`)]?.contributions.findLast((contribution) => contribution.struck === null);
  return one === undefined ? null : { net: one.net, entry: one.entry, provisional: one.provisional };
};
