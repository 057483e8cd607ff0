import { createBench } from '#lib/bench/pipeline/index';
import type { InstrumentConfig } from '#lib/measure/instrument';
import type { BenchInputs, BenchParts } from '#lib/bench/pipeline/index';
import type { Bench } from '#lib/bench/pipeline/types';
import type { Journal } from '#lib/record/journal';
import { as } from '#lib/units/id';
import type { BatchId, BootId, InstrumentId, PersonId } from '#lib/units/id';
import type { BatchState, Plan, Realm } from '#lib/work/batch/index';
import { foldBatch, remembered } from '#server/bench/restore';
import type { BootClock } from './clock';

export interface BootParts {
  readonly number: number;
  readonly configs: readonly InstrumentConfig[];
  readonly clock: BootClock;
  readonly journal: Journal;
  /** Batches of the journal that began, newest first. */
  readonly begun: readonly BatchId[];
  readonly plan: (id: string) => Plan | null;
  readonly newId: <T extends string>() => T;
  readonly isLost: (instrument: InstrumentId) => boolean;
  readonly decide: NonNullable<BenchParts['decide']>;
  readonly trouble: BenchParts['trouble'];
}

export interface ModelBoot {
  readonly boot: BootId;
  readonly clock: BootClock;
  readonly bench: Bench;
  readonly inputs: BenchInputs;
}

export const MODEL_REALM: Realm = 'practice';

/** A bench as the server starts it: everything it knows comes from the journal. */
export const startBoot = async (parts: BootParts): Promise<ModelBoot> => {
  const { number, clock, journal } = parts;
  const boot = as<BootId>(`boot-${number}`);
  const { bench, inputs } = createBench({
    boot,
    name: 'bench',
    realm: MODEL_REALM,
    clock,
    up: () => clock.up(),
    configs: parts.configs,
    status: (id) => ({ phase: parts.isLost(id) ? 'waiting' : 'live', nature: 'simulated' }),
    journal,
    batch: await armed(journal, parts.begun),
    ...(await remembered(journal)),
    newEntryId: parts.newId,
    newBatchId: parts.newId,
    newMark: () => Promise.resolve('26-1'),
    person: as<PersonId>('maker'),
    plan: parts.plan,
    load: (id) => foldBatch(journal, id),
    probesInVessel: () => [],
    scene: null,
    decide: parts.decide,
    trouble: parts.trouble,
  });
  return { boot, clock, bench, inputs };
};

const armed = async (journal: Journal, begun: readonly BatchId[]): Promise<BatchState | null> => {
  for (const id of begun) {
    const batch = await foldBatch(journal, id);
    if (batch?.status === 'weighing' || batch?.status === 'joined') return batch;
  }
  return null;
};
