import { describe, expect, it } from 'vitest';
import type { RecordFacts } from '#lib/words/record/facts';
import { pouredTable } from '#lib/words/record/poured';
import { weightRows } from '#lib/words/record/csv';
import { correctedWords } from '#lib/words/review/corrected';
import { lotsOfLine } from '#lib/words/review/line';
import { as } from '#lib/units/id';
import type { LotId } from '#lib/units/id';
import { grams } from '#lib/units/mass';
import { lotsOf } from '#lib/work/batch/lots';
import { summaryOf } from '#lib/work/batch/summary';
import { review } from '#lib/work/batch/review';
import { started } from '#tests/support/batch';
import type { BatchRig } from '#tests/support/batch';
import { formula } from '#tests/support/formula';
import { computed } from '#tests/support/remedy-rig';

const stopped = (): BatchRig => {
  const rig = started(computed(formula())).weighAll();
  rig.must('abandon', { reason: 'practice only', held: true });
  return rig;
};
const amendment = { entry: null, line: null, of: '', was: '', why: 'misread' } as const;

describe('what is put right after the end', () => {
  it('is refused while the batch is under way, without a reason, and of what is not there', () => {
    const rig = started(computed(formula())).weighAll();
    const entry = rig.line('olive').contributions[0]!.entry;
    const weight = { ...amendment, what: 'weight', entry, is: '690000' } as const;
    expect(rig.code('amend', weight)).toBe('wrong-state');
    rig.must('abandon', { reason: 'practice only', held: true });
    for (const wrong of [{ why: ' ' }, { entry: as<never>('nobody') }, { what: 'temperature', of: 'lye' } as const])
      expect(rig.code('amend', { ...weight, ...wrong })).toBe('no-such');
    for (const wrong of [{ is: '-5' }, { is: '1.5' }, { is: 'plenty' }, { what: 'lot' } as const])
      expect(rig.code('amend', { ...weight, ...wrong })).toBe('bad-number');
    // What stood there the record says, not whoever asks.
    const [entered] = rig.must('amend', { ...weight, was: 'whatever' });
    expect(entered).toMatchObject({ kind: 'amended', body: { was: String(rig.line('olive').contributions[0]!.net), line: 'olive' } });
    expect(rig.code('amend', weight)).toBe('already-done');
  });

  it('changes no sum of the record, and what it comes to is worked out beside it', () => {
    const rig = stopped();
    const before = review(rig.entries);
    const soda = rig.now.order.find((id) => rig.line(id).plan.material.class === 'hydroxide') ?? '';
    const one = rig.line(soda).contributions[0]!;
    rig.must('amend', { ...amendment, what: 'weight', entry: one.entry, is: String(one.net + grams(2)) });
    const after = review(rig.entries);
    expect(after.summary.actual).toBe(before.summary.actual);
    expect(after.lines.map(({ actual }) => actual)).toEqual(before.lines.map(({ actual }) => actual));
    if (before.poured.kind !== 'figures' || after.poured.kind !== 'figures') throw new Error('not worked out');
    expect(before.poured.corrected).toBeUndefined();
    expect(after.poured.result.superfat).toEqual(before.poured.result.superfat);
    // 2 g of hydroxide more in a kilogram of oils: 0.66 points of superfat a gram in a batch of 1 kg (worked by hand), so more than one.
    const fell = (before.poured.result.superfat?.working ?? 0) - (after.poured.corrected?.superfat?.working ?? 0);
    // On paper as on the page.
    const facts = { review: after, display: { locale: 'en-GB', mass: 'g', temperature: 'C' } } as unknown as RecordFacts;
    expect(pouredTable(facts).note).toMatch(/Worked out again with what was put right, the superfat is [\d.]+ % \(/);
    expect(pouredTable({ ...facts, review: before } as RecordFacts).note).not.toContain('put right');
    // By the values the table of results shows, where the means are others.
    const superfat = { working: 49_000, value: 47_000, low: 33_000, high: 64_000 };
    const poured = { kind: 'figures', corrected: { superfat }, result: { superfat: { working: 52_000, value: 50_000 } } };
    expect(correctedWords(poured as unknown as typeof after.poured, facts.display)?.now).toMatch(/is 4\.9 % .* before it was 5\.2 %\.$/);
    expect(fell).toBeGreaterThan(10_000);
    expect(fell).toBeLessThan(20_000);
  });

  it('another lot is counted as taken from, and the first no more', () => {
    const rig = stopped();
    const one = rig.line('olive').contributions[0]!;
    const lot = { id: as<LotId>('lot-other'), mark: 'OL 9' };
    rig.must('amend', { ...amendment, what: 'lot', entry: one.entry, is: lot.mark, lot });
    expect(lotsOf(rig.now).find((taken) => taken.lot === lot.id)).toEqual({ lot: lot.id, mark: lot.mark, mass: one.net });
    expect(lotsOf(rig.now).some((taken) => taken.lot === one.lot?.id)).toBe(false);
    // Whoever calls the first one back is told all the same, until it is what it was again.
    expect(summaryOf(rig.now).onceLots).toEqual([{ lot: one.lot?.id, mark: one.lot?.mark }]);
    expect(summaryOf(stopped().now)).not.toHaveProperty('onceLots');
    // Both show for ever, wherever lots are told.
    const told = review(rig.entries);
    const line = told.lines.find((each) => each.line === 'olive')!;
    expect(line.contributions[0]).toMatchObject({ lot: one.lot?.mark, rightLot: 'OL 9' });
    expect(lotsOfLine(line)).toEqual([{ mark: 'OL 9', stated: one.lot?.mark }]);
    const other = told.lines.find((each) => each.line === 'coconut')!;
    expect(lotsOfLine(other)).toEqual([{ mark: other.lot, stated: null }]);
    const row =
      weightRows(told)
        .split('\r\n')
        .find((each) => each.includes(',olive,')) ?? '';
    expect(row).toContain(`,${one.lot?.mark},`);
    expect(row).toMatch(/,OL 9$/);
    rig.must('amend', { ...amendment, what: 'lot', entry: one.entry, is: one.lot!.mark, lot: one.lot! });
    expect(summaryOf(rig.now).onceLots).toEqual([{ lot: 'lot-other', mark: 'OL 9' }]);
  });

  it('what went back to its bottle was not taken', () => {
    const rig = started();
    rig.setVessel('coconut');
    rig.accept('coconut', 100, { part: true });
    const { id } = rig.line('coconut').plan.lot!;
    const taken = () => lotsOf(rig.now).find(({ lot }) => lot === id)?.mass;
    expect(taken()).toBe(grams(100));
    rig.must('withdraw', { vessel: rig.line('coconut').plan.vessel, mass: grams(30), to: 'bottle' });
    expect(taken()).toBe(grams(70));
    rig.must('withdraw', { vessel: rig.line('coconut').plan.vessel, mass: grams(10), to: 'waste' });
    expect(taken()).toBe(grams(70));
  });
});
