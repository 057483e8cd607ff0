import { describe, expect, it } from 'vitest';
import { as } from '#lib/units/id';
import type { LotId } from '#lib/units/id';
import { review } from '#lib/work/batch/review';
import { lettersOf, storyOf } from '#lib/words/review/told';
import { chosenLot, unfitIn } from '#lib/bench/pipeline/lots';
import type { LotAnswer, LotStores } from '#lib/bench/pipeline/lots';
import { BatchRig, lineId, planOf, started } from '#tests/support/batch';

const LOT = { id: as<LotId>('lot-old'), mark: 'CO 24-01' };
const line = lineId('coconut');

describe('a lot that should not be used', () => {
  it('is refused at its line, and weighed from only when held: the record says so', () => {
    const rig = started();
    expect(rig.code('choose-lot', { line, lot: LOT, fault: 'expired' })).toBe('lot-unfit');
    expect(rig.line('coconut').plan.lot?.id).not.toBe(LOT.id);
    const [entry] = rig.must('choose-lot', { line, lot: LOT, fault: 'expired', held: true });
    expect(entry).toMatchObject({ kind: 'lot-chosen', body: { line, lot: LOT, despite: 'expired' } });
    expect(rig.line('coconut').plan.lot).toEqual(LOT);
    // A reader of the record is told, finds the batch by it, and finds its letter in the line's row.
    const told = review(rig.entries);
    expect(told.summary.overrides).toBe(1);
    const story = storyOf(told);
    expect(story.find(({ code }) => code === 'lot-chosen')).toMatchObject({ letter: 'a', params: { despite: 'expired' } });
    expect(lettersOf(story).get(line)).toBe('a');
  });

  it('holds the start of a batch that was prepared with it', () => {
    const start = { mark: '26-11', plan: planOf('alder-and-oat'), realm: 'test', bench: 'bench 1' } as const;
    const unfit = [{ line, lot: LOT, fault: 'quarantined' } as const];
    expect(new BatchRig().code('start', { ...start, unfit })).toBe('lot-unfit');
    const rig = new BatchRig();
    const entries = rig.must('start', { ...start, unfit, held: true, cleaned: ['the bench is wiped'] });
    expect(entries.map(({ kind }) => kind)).toEqual(['batch-started', 'cleaned', 'lot-chosen']);
  });

  it('what a lot is called, of what it is and whether it is fit the stores say, never the screen', () => {
    const answers: Record<string, LotAnswer | null> = {
      known: { is: 'lot', id: 'known', mark: 'CO 26-07', fault: 'expired' },
      soda: { is: 'other' },
      'typed plan': null,
    };
    const stores: LotStores = {
      kept: (id) => answers[id] ?? null,
      scanned: (text) => answers[text] ?? { is: 'unknown' },
    };
    const { now } = started();
    const choose = (id: string) => chosenLot(stores, now, { is: 'lot', line, lot: { id, mark: 'said by a screen' }, held: false });
    expect(choose('known')).toMatchObject({ body: { lot: { id: 'known', mark: 'CO 26-07' }, fault: 'expired', held: false } });
    expect(choose('soda')).toMatchObject({ code: 'lot-other' });
    expect(choose('typed plan')).toMatchObject({ body: { lot: { mark: 'said by a screen' } } });
    const other = { is: 'lot', line: lineId('__proto__'), lot: { id: 'known', mark: '' }, held: false } as const;
    expect(chosenLot(stores, now, other)).toMatchObject({ code: 'no-such' });
    const scan = (text: string) => chosenLot(stores, now, { is: 'scan', text, held: true });
    expect(scan('known')).toMatchObject({ kind: 'choose-lot', body: { line, held: true } });
    expect(scan('nothing')).toMatchObject({ code: 'lot-unknown' });
    expect(
      unfitIn(stores, { ...now.plan, lines: now.plan.lines.map((one) => ({ ...one, lot: { ...LOT, id: as<LotId>('known') } })) }),
    ).toHaveLength(9);
    expect(unfitIn(undefined, now.plan)).toEqual([]);
  });
});
