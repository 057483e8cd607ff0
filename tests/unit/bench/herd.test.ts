import { describe, expect, it } from 'vitest';
import { benchRig, TABLET } from '#tests/support/bench-rig';
import type { BenchRig } from '#tests/support/bench-rig';

/** A bench on a record with a batch in it, that counts how often the batch is read. */
const counted = async () => {
  const first = benchRig();
  const batch = await first.start();
  let reads = 0;
  let broken = false;
  const { journal } = first;
  const counting: typeof journal = {
    name: journal.name,
    seq: () => journal.seq(),
    link: () => journal.link(),
    append: (what) => journal.append(what),
    lines: (after, limit) => journal.lines(after, limit),
    answerTo: (intent) => journal.answerTo(intent),
    linesOf: async (id) => {
      reads += 1;
      if (broken) throw new Error('cannot be read now');
      return journal.linesOf(id);
    },
  };
  const rig = benchRig({ journal: counting, batch, boot: 'boot-two' });
  return { rig, reads: () => reads, broken: (now: boolean) => void (broken = now) };
};
const fifty = (rig: BenchRig) => Promise.all(Array.from({ length: 50 }, () => rig.bench.lane(null, 0)));

describe('B21: screens that all come back at once', () => {
  it('B21: fifty that come back at once cost one reading of the record, and the next line one more', async () => {
    const { rig, reads } = await counted();
    const lanes = await fifty(rig);
    expect(reads()).toBe(1);
    expect(lanes.every((lane) => lane.from === 0 && lane.seq === 1 && lane.lines.length === 1)).toBe(true);
    rig.bench.takeLease(TABLET, 'tablet');
    expect(await rig.intent({ kind: 'note', text: 'meanwhile' })).toMatchObject({ ok: true });
    expect((await fifty(rig)).every((lane) => lane.seq === 2 && lane.lines.length === 2)).toBe(true);
    expect(reads()).toBe(2);
  });

  it('one that only missed a little gets that much', async () => {
    const { rig } = await counted();
    rig.bench.takeLease(TABLET, 'tablet');
    await rig.intent({ kind: 'note', text: 'meanwhile' });
    expect(await rig.bench.lane(rig.bench.batch()?.id ?? '', 1)).toMatchObject({ from: 1, seq: 2, lines: { length: 1 } });
  });

  it('a reading that failed is not kept for the others', async () => {
    const { rig, broken } = await counted();
    broken(true);
    await expect(rig.bench.lane(null, 0)).rejects.toThrow('cannot be read now');
    broken(false);
    expect(await rig.bench.lane(null, 0)).toMatchObject({ seq: 1, lines: { length: 1 } });
  });
});
