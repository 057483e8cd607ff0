import { describe, expect, it } from 'vitest';
import { grams } from '#lib/units/mass';
import { celsius } from '#lib/units/temperature';
import { joiningHolds } from '#lib/work/batch/joining';
import { line, planOf, Rig, vesselId, WATER } from './rig';

const JUG = { into: vesselId('pot'), atOnce: grams(200) };
const BIG = line('big', { class: 'liquid-oil', target: 600, tolerance: 2, vessel: 'jug', more: JUG });

const keep = (rig: Rig): Rig => rig.take('part-pour', false).run(2);

/** The jug filled to a gross of so many grams, kept as a part, carried over and back with 1 g clinging to it. */
const part = (rig: Rig, gross: number): Rig => keep(rig.pour(gross, 4).run(3)).rest(0).rest(201);

describe('a line that goes in several parts', () => {
  it('is led from part to part: each has its own target, its card, and its way over into the pot', () => {
    const rig = new Rig().start(planOf([BIG, WATER])).rest(200);
    expect(rig.seen).toMatchObject({ phase: 'ready', target: 200_000, left: 200_000 });
    rig.pour(300, 4).run(3);
    expect(rig.seen).toMatchObject({ phase: 'pouring', left: 100_000, cards: [] });
    rig.pour(396).run(3);
    expect(rig.seen).toMatchObject({
      phase: 'short',
      left: 4000,
      cards: [{ code: 'part-pour', hold: false, enabled: true }],
      goOn: { code: 'next-card' },
    });
    keep(rig);
    expect(rig.line('big')).toMatchObject({ actual: 196_000, status: 'open' });
    // The jug is full: nothing is asked for before it was carried over.
    expect(rig.seen).toMatchObject({
      phase: 'lift',
      vessel: 'jug',
      cards: [],
      goOn: null,
      say: { code: 'lift', params: { vessel: 'jug' } },
    });
    rig.rest(0).rest(201);
    expect(rig.entries.find(({ kind }) => kind === 'moved')?.body).toMatchObject({ from: 'jug', to: 'pot', mass: 195_000, residue: 1000 });
    // What the first part fell short of is shared by the two that are left.
    expect(rig.seen).toMatchObject({ phase: 'ready', target: 398_000, left: 202_000 });
  });

  it('nothing of a part is over: the rest is so much less, and the last part is weighed to the tolerance and taken by itself', () => {
    const rig = new Rig()
      .start(planOf([BIG, WATER]))
      .rest(200)
      .pour(404, 6)
      .run(3);
    expect(rig.seen).toMatchObject({ left: 0, red: false, phase: 'short' });
    part(keep(rig).rest(0).rest(201), 399);
    expect(rig.line('big').actual).toBe(402_000);
    expect(rig.seen).toMatchObject({ phase: 'ready', target: 600_000, left: 198_000 });
    rig.pour(399, 4).run(6);
    expect(rig.line('big')).toMatchObject({ actual: 600_000, outcome: 'within', status: 'closed' });
    expect(rig.line('big').contributions.map(({ how }) => how)).toEqual(['go-on', 'go-on', 'by-itself']);
  });

  it('a part that is being poured is not weighed back with what the part before it left', () => {
    const rig = keep(
      new Rig()
        .start(planOf([BIG, WATER]))
        .rest(200)
        .pour(400, 6)
        .run(3),
    );
    rig.rest(0).rest(200).pour(300, 4).run(3);
    expect(rig.line('big').actual).toBe(200_000);
    rig.step({ kind: 'ask', ask: 'weigh-back' });
    expect(rig.kinds()).not.toContain('weighed-back');
    expect(rig.line('big').actual).toBe(200_000);
  });

  it('no part is taken by itself, however long it stands', () => {
    const rig = new Rig()
      .start(planOf([BIG, WATER]))
      .rest(200)
      .pour(400, 6)
      .run(30);
    expect(rig.line('big').contributions).toEqual([]);
  });
});

describe('a stock lye weighed into its jug', () => {
  const LYE = line('stock', {
    class: 'hydroxide',
    target: 420,
    tolerance: 1,
    vessel: 'jug',
    more: { inSolution: true, superfatPerGram: -220 },
  });
  const OIL = line('olive', { class: 'liquid-oil', target: 1000, tolerance: 5, vessel: 'pot' });
  const start = (): Rig =>
    new Rig()
      .start(planOf([OIL, LYE]))
      .rest(500)
      .pour(1500, 20)
      .run(6)
      .rest(0);

  it('has the gate of hydroxide, is taken with a hold only, and is the lye: nothing is to be dissolved', () => {
    const rig = start();
    expect(rig.seen).toMatchObject({ phase: 'gate', gate: { gate: 'hydroxide' }, goOn: { code: 'confirm-gate', hold: true } });
    rig.press('go-on', true).run(1).rest(200).pour(620, 12).run(20);
    expect(rig.seen).toMatchObject({ phase: 'hold', line: 'stock', goOn: { code: 'accept-held', hold: true } });
    expect(rig.line('stock').actual).toBe(0);
    rig.press('go-on', true).run(2);
    expect(rig.line('stock')).toMatchObject({ actual: 420_000, status: 'closed' });
    expect(rig.state.vessels[vesselId('jug')]).toMatchObject({ state: 'dissolved', contents: 420_000 });
    rig.rest(0).run(2);
    expect(rig.seen).toMatchObject({ phase: 'temperatures', gate: null });
    expect(rig.seen.cards.map(({ code }) => code)).not.toContain('dissolve');
    expect(rig.seen.joining?.holds.map(({ reason }) => reason)).not.toContain('lye-not-made');
  });

  it('one that warms in a bath is no lye that still heats', () => {
    const rig = start().press('go-on', true).run(1).rest(200).pour(620, 12).run(3).press('go-on', true).run(2).rest(0).run(1);
    const at = { lye: celsius(38), oils: celsius(40), milk: null };
    const rising = { first: celsius(20), highest: celsius(38) };
    expect(joiningHolds(rig.state, at, rising)).toEqual([]);
    const dissolves = {
      ...rig.state,
      lines: { ...rig.state.lines, [LYE.id]: { ...rig.line('stock'), plan: { ...LYE, inSolution: undefined } } },
    };
    expect(joiningHolds(dissolves as never, at, rising).map(({ reason }) => reason)).toContain('lye-too-hot');
  });
});
