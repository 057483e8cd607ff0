import { createBench } from '#lib/bench/pipeline/index';
import type { BenchInputs, BenchParts } from '#lib/bench/pipeline/index';
import type { Bench } from '#lib/bench/pipeline/types';
import type { InstrumentConfig } from '#lib/measure/instrument';
import type { MassReading, ProbeUse, TemperatureReading } from '#lib/measure/reading';
import type { Journal } from '#lib/record/journal';
import type { BenchIntent, IntentAnswer, IntentWant } from '#lib/protocol/intent';
import type { RecordLane } from '#lib/protocol/lanes';
import type { LiveFrame } from '#lib/protocol/live';
import { as } from '#lib/units/id';
import type { BootId, InstrumentId, ScreenId } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import { celsius } from '#lib/units/temperature';
import { monotonic, wall } from '#lib/units/time';
import { fold } from '#lib/work/batch/index';
import type { BatchState, Entry } from '#lib/work/batch/index';
import { SAMPLE_PLANS } from '#lib/work/formula/sample';
import { planOf } from './batch';
import { MemoryJournal } from './memory-journal';

export const SCALE = as<InstrumentId>('scale-main');
export const TABLET = as<ScreenId>('tablet');
export const PHONE = as<ScreenId>('phone');

const SERIAL = { baudRate: 9600, frame: '8N1' } as const;
const CONFIGS: readonly InstrumentConfig[] = [
  {
    kind: 'scale',
    id: SCALE,
    role: 'main',
    name: 'big scale',
    path: '/dev/none',
    shape: 'header-comma',
    serial: SERIAL,
    capacity: grams(5000),
    division: mg(100),
  },
  { kind: 'probe', id: as('probe-oils'), name: 'oils probe', path: '/dev/none2', use: 'oils', shape: 'probe-line', serial: SERIAL },
];

/** One bench under a clock the test turns by hand, with its records in memory. */
export interface BenchRig {
  readonly bench: Bench;
  readonly inputs: BenchInputs;
  readonly journal: Journal;
  readonly frames: LiveFrame[];
  readonly lanes: RecordLane[];
  /** Runs ticks at their rhythm for so long; `each` is called before every tick. */
  pass(ms: number, each?: () => void): Promise<void>;
  /** Time goes by, but nothing runs: the process stands still. */
  stand(ms: number): void;
  stepWall(ms: number): void;
  /** Monotonic and wall clock as after a suspend: up-time and wall ran on, the monotonic clock did not. */
  suspend(ms: number): void;
  weight(grams: number, more?: Partial<MassReading>): void;
  temperature(use: ProbeUse, degrees: number): void;
  intent(want: IntentWant, more?: Partial<BenchIntent>, screen?: ScreenId): Promise<IntentAnswer>;
  start(): Promise<BatchState>;
}

export interface RigOptions {
  readonly journal?: Journal;
  readonly batch?: BatchState | null;
  readonly boot?: string;
  readonly parts?: Partial<BenchParts>;
}

let ids = 0;
const newId = <T extends string>(): T => as<T>(`id-${String((ids += 1)).padStart(8, '0')}`);

export const benchRig = ({ journal = new MemoryJournal(), batch = null, boot = 'boot-one', parts = {} }: RigOptions = {}): BenchRig => {
  const time = { mono: 10_000, wall: 1_760_000_000_000, up: 500_000, seq: 0 };
  const go = (ms: number): void => {
    time.mono += ms;
    time.wall += ms;
    time.up += ms;
  };
  const { bench, inputs } = createBench({
    boot: as<BootId>(boot),
    name: 'bench',
    realm: 'practice',
    clock: { now: () => monotonic(time.mono), wall: () => wall(time.wall), offsetMinutes: () => 120 },
    up: () => time.up,
    configs: CONFIGS,
    status: () => ({ phase: 'live', nature: 'simulated' }),
    journal,
    batch,
    checks: {},
    newEntryId: newId,
    newBatchId: newId,
    newMark: () => Promise.resolve('26-11'),
    person: as('maker'),
    plan: (id) => (SAMPLE_PLANS.some((plan) => plan.id === id) ? planOf(id) : null),
    load: async (id) => fold((await journal.linesOf(id)).map((line) => JSON.parse(line.text) as Entry)),
    probesInVessel: () => [],
    scene: null,
    trouble: (what, error) => {
      throw new Error(what, { cause: error });
    },
    ...parts,
  });
  const frames: LiveFrame[] = [];
  const lanes: RecordLane[] = [];
  bench.listen({ frame: (frame) => frames.push(frame), record: (lane) => lanes.push(lane) });

  const rig: BenchRig = {
    bench,
    inputs,
    journal,
    frames,
    lanes,
    async pass(ms, each) {
      for (let gone = 0; gone < ms; gone += 50) {
        go(Math.min(50, ms - gone));
        each?.();
        inputs.tick();
        await inputs.idle();
      }
    },
    stand: go,
    stepWall: (ms) => void (time.wall += ms),
    suspend(ms) {
      time.wall += ms;
      time.up += ms;
    },
    weight(shown, more = {}) {
      time.seq += 1;
      inputs.reading({
        kind: 'mass',
        instrument: SCALE,
        seq: time.seq,
        at: monotonic(time.mono),
        raw: new TextEncoder().encode(`ST,GS,${shown.toFixed(1)} g`),
        text: shown.toFixed(1),
        unit: 'g',
        mass: grams(shown),
        step: mg(100),
        motion: 'stable',
        range: 'in',
        weighing: 'gross',
        ...more,
      });
    },
    temperature(use, degrees) {
      const reading: TemperatureReading = {
        kind: 'temperature',
        instrument: as('probe-oils'),
        seq: (time.seq += 1),
        at: monotonic(time.mono),
        raw: new Uint8Array(),
        use,
        value: celsius(degrees),
        text: degrees.toFixed(2),
        fault: null,
      };
      inputs.reading(reading);
    },
    intent(want, more = {}, screen = TABLET) {
      const state = bench.batch();
      const intent: BenchIntent = {
        id: newId(),
        batch: state?.id ?? null,
        expectedVersion: state?.version ?? null,
        seen: { boot: bench.boot, episode: bench.frame().cue.episode },
        expires: time.mono + 3_000,
        want,
        ...more,
      };
      return bench.intent({ screen, role: 'maker' }, intent);
    },
    async start() {
      bench.takeLease(TABLET, 'tablet');
      const answer = await rig.intent({ kind: 'start', plan: 'alder-and-oat', lots: {} });
      const started = bench.batch();
      if (!answer.ok || started === null) throw new Error(`not started: ${JSON.stringify(answer)}`);
      return started;
    },
  };
  return rig;
};

/** Every entry of a journal, as stored. */
export const entriesIn = async (journal: Journal): Promise<readonly Entry[]> =>
  (await journal.lines(0, 100_000)).map((line) => JSON.parse(line.text) as Entry);
