import { describe, expect, it } from 'vitest';
import { grams } from '#lib/units/mass';
import { MAIN, OLIVE, planOf, Rig, SODA, vesselId, WATER } from './rig';

/** Water is in, and the empty cup for 70 g of soda stands on the pan. */
const cupOn = (): Rig =>
  new Rig()
    .start(planOf([WATER, SODA, OLIVE]))
    .rest(200)
    .pour(350)
    .run(6)
    .rest(0)
    .run(2)
    .press('go-on', true)
    .run(2)
    .rest(60);

/** 50 g of the soda stand poured in it. */
const half = (): Rig => {
  const rig = cupOn().pour(110, 5).run(4);
  expect(rig.state).toMatchObject({ open: 'soda' });
  return rig;
};

const spill = (rig: Rig): void =>
  void rig.send({ kind: 'lose', body: { vessel: vesselId('jug'), mass: grams(5), cause: 'spill', note: '' } }, 'maker');

const about = { line: null, vessel: vesselId('jug'), mass: grams(5), held: true } as const;

describe('hydroxide that stands half poured and in no entry', () => {
  it('is kept before another line is opened: its cup would come back with nobody knowing what is in it', () => {
    const rig = half();
    const entry = rig.line('water').contributions[0]!.entry;
    spill(rig);
    rig.send({ kind: 'strike', body: { entry, reason: 'undone', note: '', held: true } }, 'maker');
    rig.send({ kind: 'state-wrong', body: { what: 'spill', ...about } }, 'maker');
    expect(rig.refusals).toEqual(['lose keep-first', 'strike keep-first', 'state-wrong keep-first']);
    expect(rig.state).toMatchObject({ open: 'soda', wrong: null });
    rig.rest(0);
    spill(rig);
    expect(rig.refusals.at(-1)).toBe('lose keep-first');
  });

  it('is known when its cup comes back, once it was kept', () => {
    const rig = half();
    rig.step({ kind: 'ask', ask: 'part-pour' });
    rig.run(1).take('part-pour').run(1);
    spill(rig);
    expect(rig.refusals).toEqual([]);
    expect(rig.state).toMatchObject({ open: 'water' });
    rig.rest(0).rest(345).pour(350, 2).run(6).rest(0).run(2);
    rig.press('go-on', true).run(2).rest(110).pour(130, 3).run(5).press('go-on', true).run(1);
    expect(rig.line('soda')).toMatchObject({ status: 'closed', actual: grams(70) });
    expect(rig.pan(MAIN).truth).toBe(130_000);
  });

  it('stands in nobody’s way where nothing was poured yet', () => {
    const rig = cupOn();
    spill(rig);
    expect(rig.refusals).toEqual([]);
    expect(rig.state).toMatchObject({ open: 'water' });
  });
});
