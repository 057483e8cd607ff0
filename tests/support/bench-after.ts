import { labelled } from '#lib/record/journal';
import { appendOf } from './appends';
import { as } from '#lib/units/id';
import { benchRig, TABLET } from './bench-rig';
import type { BenchRig } from './bench-rig';
import type { BatchRig } from './batch';
import { MemoryJournal } from './memory-journal';

/** A bench, led by the tablet, at which the batch of `before` goes on in its own boot: the record holds what was entered so far. */
export const benchAfter = async (before: BatchRig): Promise<BenchRig> => {
  const journal = new MemoryJournal();
  for (const entry of before.entries) {
    await journal.append(appendOf([labelled(entry)]));
  }
  const rig = benchRig({ journal, batch: before.now, boot: before.boot });
  rig.bench.takeLease(as(TABLET), 'tablet');
  return rig;
};
