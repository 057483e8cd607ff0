import { describe, expect, it } from 'vitest';
import { line, MAIN, OLIVE, planOf, Rig, WATER } from './rig';

const bottled = (id: string): ReturnType<typeof line> =>
  line(id, { class: 'liquid-oil', target: 80, tolerance: 1, vessel: 'pot', more: { mode: 'loss' } });
const HONEY = bottled('honey');

/** The bottle set down, lifted, poured from and back on the pan: accepted by itself. */
const weighed = (rig: Rig): Rig => {
  rig.rest(1500).rest(0, MAIN, 3).rest(1420, MAIN, 5);
  expect(rig.line('honey').contributions.at(-1)).toMatchObject({ net: 80_000, how: 'by-itself' });
  return rig;
};

const sets = (rig: Rig): number => rig.kinds().filter((kind) => kind === 'vessel-set').length;

/** The bottle has gone and its weight is crossed out; what is set down next is the pot that it was poured into. */
const crossedOut = (gross: number): Rig => {
  const rig = weighed(new Rig().start(planOf([HONEY, OLIVE, WATER]))).rest(0);
  const entry = rig.line('honey').contributions[0]?.entry;
  rig.send({ kind: 'strike', body: { entry: entry as never, reason: 'undone', note: '', held: true } }, 'maker');
  return rig.rest(gross).run(4);
};
const isAsked = (rig: Rig): void => {
  expect(rig.seen).toMatchObject({ phase: 'strange-vessel', line: 'honey', cards: [{ code: 'it-is-vessel', hold: true }] });
  expect(rig.state.pans[MAIN]).toBeUndefined();
};

describe('a bottle weighed by its loss', () => {
  it('is never taken for the pot of the next line: it is lifted first, however long it stands', () => {
    const rig = weighed(new Rig().start(planOf([HONEY, OLIVE, WATER]))).run(10);
    expect(rig.seen).toMatchObject({ phase: 'lift', line: 'olive', goOn: null, cards: [] });
    expect(rig.seen.say).toMatchObject({ code: 'lift', params: { vessel: 'honey' } });
    expect(sets(rig)).toBe(1);
    rig.rest(0);
    expect(rig.seen).toMatchObject({ phase: 'waiting-vessel', line: 'olive' });
    rig.rest(580);
    expect(rig.state.pans[MAIN]).toMatchObject({ vessel: 'pot', line: 'olive', zero: 580_000 });
  });

  it('is lifted first after a restart, too', () => {
    const rig = weighed(new Rig().start(planOf([HONEY, OLIVE, WATER]))).restart();
    rig.run(1).take('resume-as-recorded').run(3);
    expect(rig.seen).toMatchObject({ phase: 'lift', line: 'olive' });
    expect(sets(rig)).toBe(1);
    expect(rig.rest(0).seen.phase).toBe('waiting-vessel');
  });

  it('is lifted first when its weight was questioned and kept', () => {
    const rig = weighed(new Rig().start(planOf([HONEY, OLIVE, WATER]))).rest(1400);
    expect(rig.seen.phase).toBe('question');
    rig.take('keep-weight').run(5);
    expect(rig.seen).toMatchObject({ phase: 'lift', line: 'olive' });
    expect(sets(rig)).toBe(1);
    expect(rig.rest(0).seen.phase).toBe('waiting-vessel');
  });

  it('that weighs what the pot weighs is asked about when either is set down', () => {
    const rig = new Rig()
      .start(planOf([HONEY, OLIVE, WATER]))
      .rest(660)
      .rest(0)
      .rest(580, MAIN, 6);
    expect(rig.seen).toMatchObject({ phase: 'ask', doubts: ['return-unlike'], poured: 80_000 });
    rig.press('go-on').run(2);
    expect(rig.seen).toMatchObject({ phase: 'lift', line: 'olive' });
    rig.rest(0).rest(580);
    expect(rig.seen).toMatchObject({ phase: 'strange-vessel', cards: [{ code: 'it-is-vessel', hold: false }] });
    expect(sets(rig)).toBe(1);
    rig.take('it-is-vessel', false).run(0.2);
    expect(rig.seen.phase).toBe('ready');
  });

  it('of another material is not poured from by mistake: the bottle that was weighed before is asked about', () => {
    const rig = weighed(new Rig().start(planOf([HONEY, bottled('syrup'), WATER])));
    expect(rig.run(5).seen).toMatchObject({ phase: 'lift', line: 'syrup' });
    rig.rest(0).rest(1420);
    expect(rig.seen).toMatchObject({ phase: 'strange-vessel', line: 'syrup' });
    expect(sets(rig)).toBe(1);
    rig.rest(0).rest(900);
    expect(rig.seen).toMatchObject({ phase: 'ready', line: 'syrup', left: 80_000 });
  });

  it('of the same lot goes on from the weight it had, and is asked about when it was poured from meanwhile', () => {
    const more = { ...bottled('more'), material: HONEY.material, lot: HONEY.lot };
    const rig = weighed(new Rig().start(planOf([HONEY, more, WATER])))
      .rest(0)
      .rest(1390);
    expect(rig.seen).toMatchObject({ phase: 'strange-vessel', cards: [{ code: 'it-is-vessel', hold: true, params: { vessel: 'honey' } }] });
    rig.rest(0).rest(1420);
    expect(rig.seen).toMatchObject({ phase: 'ready', line: 'more', left: 80_000 });
  });

  it('of which a part was kept counts on from there, though it is lifted before anything more was poured', () => {
    const rig = new Rig()
      .start(planOf([HONEY, WATER]))
      .rest(1500)
      .rest(0, MAIN, 3)
      .rest(1450);
    rig.step({ kind: 'ask', ask: 'part-pour' });
    expect(rig.line('honey')).toMatchObject({ actual: 50_000, status: 'open' });
    rig.run(2).rest(0).rest(1420, MAIN, 5);
    expect(rig.line('honey')).toMatchObject({ actual: 80_000, outcome: 'within' });
    expect(rig.state.question).toBeNull();
  });

  it('is not the pot that was filled from it: what comes back by the weight of a vessel is asked about', () => {
    const rig = new Rig()
      .start(planOf([OLIVE, HONEY, WATER]))
      .rest(500)
      .pour(700)
      .run(6)
      .rest(0)
      .rest(780);
    expect(rig.state.pans[MAIN]).toMatchObject({ line: 'honey', zero: 780_000 });
    // The pot with its 200 g of oil reads what the bottle would have left.
    rig.rest(0).rest(700, MAIN, 6);
    expect(rig.seen).toMatchObject({ phase: 'ask', doubts: ['return-unlike'] });
    expect(rig.line('honey').contributions).toHaveLength(0);
  });

  it('comes back no heavier than it left', () => {
    const rig = new Rig()
      .start(planOf([HONEY, WATER]))
      .rest(1500)
      .rest(0)
      .rest(1560)
      .rest(0)
      .rest(1420, MAIN, 6);
    expect(rig.seen.phase).toBe('ask');
    expect(rig.seen.doubts).toContain('return-unlike');
    expect(rig.line('honey').contributions).toHaveLength(0);
  });

  it('crossed out is not the pot that reads something between its zero and what was left of it', () => {
    isAsked(crossedOut(1470));
    const rig = crossedOut(1470).rest(0).rest(1420);
    expect(rig.state.pans[MAIN]).toMatchObject({ line: 'honey', zero: 1_500_000 });
  });

  it('crossed out is not the pot that reads nearly what was left of it', () => {
    isAsked(crossedOut(1421.5));
  });

  it('is no vessel that a probe could lean in', () => {
    const rig = new Rig().start(planOf([HONEY, WATER]));
    rig.probesInVessel = ['pot' as never];
    weighed(rig);
  });
});
