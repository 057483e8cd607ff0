import type { InstrumentConfig, LinkStatus } from '#lib/measure/instrument';
import { createLink } from '#lib/measure/link/link';
import type { Link } from '#lib/measure/link/link';
import type { PortOpener } from '#lib/measure/link/port';
import type { Reading } from '#lib/measure/reading';
import type { RawFrame } from '#lib/measure/link/raw-ring';
import { LOOP_TICK_MS } from '#lib/measure/readings/burst';
import { createBench } from '#lib/bench/pipeline/index';
import type { BenchParts } from '#lib/bench/pipeline/index';
import type { Bench } from '#lib/bench/pipeline/types';
import type { InstrumentId, VesselId } from '#lib/units/id';
import type { Realm } from '#lib/work/batch/index';
import type { AnswerRemedy } from '#lib/work/batch/remedy/index';
import { correctionOf } from '#lib/measure/probe/check';
import { documentsOf, probeCheckOf } from '#lib/work/shelf/context';
import { batterOf } from '#lib/work/batch/batter';
import type { Mould, Scale } from '#lib/work/formula/index';
import { mouldsFor } from '#lib/work/formula/mould-offers';
import { createBarsDesk } from '../bars/desk';
import type { BarsDesk } from '../bars/desk';
import type { Log } from '../log';
import type { Store } from '../store/store';
import { createLotStores } from './lots';
import { nextMark } from './mark';
import { createPlans, scalesOf } from './plans';
import type { Plans } from './plans';
import { armedBatch, foldBatch, remembered } from './restore';
import { leftOfLots } from './stock';
import { newId, systemClock, systemTimers, upTime } from './system';
import { MAKER } from '../maker';

export interface RunParts {
  readonly name: string;
  readonly realm: Realm;
  readonly store: Store;
  readonly configs: readonly InstrumentConfig[];
  readonly opener: PortOpener;
  readonly scene: BenchParts['scene'];
  readonly leaning: () => readonly VesselId[];
  readonly answerRemedy: AnswerRemedy;
  readonly log: Log;
}

/** A bench with its instruments connected and its clock ticking. */
export interface BenchRun {
  readonly bench: Bench;
  readonly store: Store;
  readonly configs: readonly InstrumentConfig[];
  readonly plans: Plans;
  readonly bars: BarsDesk;
  readonly scales: readonly Scale[];
  links(): readonly LinkStatus[];
  /** Newest raw frames of one instrument, newest first; `null`: no such instrument. */
  rawFrames(instrument: InstrumentId): readonly RawFrame[] | null;
  /** Decides what was asked, then frees every port. */
  stop(): Promise<void>;
}

export const startRun = async (parts: RunParts): Promise<BenchRun> => {
  const { store, log, realm } = parts;
  const links = new Map<InstrumentId, Link>();
  const scales = scalesOf(parts.configs);
  const plans = createPlans({ shelf: () => store.shelf.now(), scales, realm });
  const bars = createBarsDesk({
    journal: store.bench,
    realm,
    newEntryId: newId,
    trouble: (what, error) => log.error({ err: error }, what),
  });
  const { bench, inputs } = createBench({
    boot: newId(),
    name: parts.name,
    realm,
    clock: systemClock,
    up: upTime,
    configs: parts.configs,
    status: (id) => links.get(id)?.status() ?? { phase: 'closed', nature: null },
    journal: store.bench,
    bars,
    batch: await restored(parts),
    ...(await remembered(store.bench, store.checks())),
    newEntryId: newId,
    newBatchId: newId,
    newMark: () => nextMark(store, systemClock.wall()),
    person: MAKER,
    plan: (id, lots) => plans.with(id, lots),
    moulds: (ids, batch) => mouldsFor(ids, documentsOf<Mould>(store.shelf.now(), 'mould'), batterOf(batch)),
    lots: createLotStores(() => store.shelf.now(), realm, systemClock),
    load: (id) => foldBatch(store.bench, id),
    corrections(instrument, use, shown) {
      const check = probeCheckOf(store.shelf.now(), instrument, use);
      return check === null ? null : correctionOf(check, shown);
    },
    probesInVessel: parts.leaning,
    scene: parts.scene,
    answerRemedy: parts.answerRemedy,
    stock: () => leftOfLots(store),
    trouble: (what, error) => log.error({ err: error }, what),
  });

  for (const config of parts.configs) {
    const sink = {
      reading: (reading: Reading) => inputs.reading(reading),
      status(status: LinkStatus) {
        log.info({ instrument: status.instrument, phase: status.phase, failure: status.failure, detail: status.detail }, 'instrument');
        inputs.status(status);
      },
    };
    links.set(config.id, createLink({ config, opener: parts.opener, clock: systemClock, timers: systemTimers, sink }));
  }
  const ticking = setInterval(() => inputs.tick(), LOOP_TICK_MS);
  for (const link of links.values()) link.start();

  return {
    bench,
    store,
    configs: parts.configs,
    plans,
    bars,
    scales,
    links: () =>
      [...links.values()].map((link) => {
        const status = link.status();
        const discarded = inputs.discarded(status.instrument);
        return discarded === 0 ? status : { ...status, faults: { ...status.faults, 'stall-discard': discarded } };
      }),
    rawFrames: (instrument) => links.get(instrument)?.rawFrames() ?? null,
    async stop() {
      clearInterval(ticking);
      await Promise.all([...links.values()].map((link) => link.stop()));
      await inputs.idle();
      await bars.idle();
    },
  };
};

/** A batch whose lines do not follow is left alone and said aloud; the bench runs without it. */
const restored = async ({ store, log }: RunParts): Promise<BenchParts['batch']> => {
  try {
    return await armedBatch(store);
  } catch (error) {
    log.error({ err: error }, 'the batch that was being weighed cannot be read; it is kept as it is');
    return null;
  }
};
