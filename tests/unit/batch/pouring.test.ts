import { describe, expect, it } from 'vitest';
import { mg } from '#lib/units/mass';
import { as } from '#lib/units/id';
import { joiningHolds, fold } from '#lib/work/batch/index';
import { compositionOf, mouldsOf } from '#lib/work/batch/moulds';
import { hadIn, leftOver, partTarget, plainBatter, massOf } from '#lib/work/batch/pouring/amounts';
import { jobsToDo } from '#lib/work/batch/pouring/jobs';
import { review } from '#lib/work/batch/review';
import { upcastLines } from '#lib/work/batch/upcast';
import { lineId, started, type BatchRig } from '#tests/support/batch';
import { fill, nameAll, partOff, setDown, twoParts, weighLeft } from '#tests/support/pouring';

/** Meadowsweet, joined and at trace, with a green half to part off and two moulds; about 700 g of batter. */
const joined = (canWait = false): BatchRig => {
  const rig = started(twoParts(canWait)).weighAll().makeLye();
  nameAll(rig);
  rig.join();
  rig.must('stamp-trace', { mark: 'medium', note: '' });
  return rig;
};
const green = (rig: BatchRig) => rig.now.plan.parts![0]!;
const batter = (rig: BatchRig): number => massOf(plainBatter(rig.now)) / 1_000;
const inMould = (rig: BatchRig, n: number) => compositionOf(rig.now, n)!;
const total = (masses: readonly { readonly mass: number | null }[]): number => masses.reduce((sum, { mass }) => sum + (mass ?? NaN), 0);

describe('patterns', () => {
  it('hold joining until each mould has one, and are named by a person', () => {
    const rig = started(twoParts()).weighAll().makeLye();
    const held = (): readonly string[] => joiningHolds(rig.now, { lye: null, oils: null, milk: null }).map(({ reason }) => reason);
    expect(held()).toContain('pattern-unnamed');
    expect(rig.code('join', { held: true })).toBe('joining-held');
    expect(rig.code('name-pattern', { mould: 9, pattern: 'layers' })).toBe('no-such');
    expect(rig.code('name-pattern', { mould: 1, pattern: 'layers' }, { role: 'program' })).toBe('not-yours');
    expect(rig.code('name-pattern', { mould: 1, pattern: 'layers' })).toBe('pattern-named');
    expect(rig.code('name-pattern', { mould: 1, pattern: 'layers' })).toBe('already-done');
    expect(held()).not.toContain('pattern-unnamed');
    expect(mouldsOf(rig.now).map(({ mark, pattern, mass }) => [mark, pattern, mass])).toEqual([
      ['26-11/1', 'layers', null],
      ['26-11/2', 'drop-swirl', null],
    ]);
  });

  it('after joining become plain pours or stay; the record tells what was to be', () => {
    const rig = joined();
    expect(rig.code('name-pattern', { mould: 2, pattern: 'layers' })).toBe('after-joining');
    rig.must('stamp-trace', { mark: 'wrong', note: '' });
    expect(rig.now.pour.trouble).toBe('which');
    rig.must('state-batter', { what: 'seizing' });
    expect(rig.now.pour.trouble).toBe('seizing');
    rig.must('name-pattern', { mould: 2, pattern: 'plain-pour' });
    expect(rig.now.pour).toMatchObject({ trouble: null, wrongs: [{ what: 'seizing' }] });
    const told = review(rig.entries).story.filter(({ code }) => code === 'pattern-dropped' || code === 'batter-wrong');
    expect(told.map(({ params }) => params)).toEqual([
      { what: 'seizing' },
      { mark: '26-11/2', mould: 'Tray of six', pattern: 'plain-pour', was: 'drop-swirl' },
    ]);
  });
});

describe('a part of the batter', () => {
  it('has its additive weighed for the grams really in it, and not before', () => {
    const rig = joined();
    expect(rig.now.open).toBeNull();
    const { mass, by } = partTarget(rig.now, green(rig));
    expect([by, mass / 1_000]).toEqual(['share', expect.closeTo(batter(rig) / 2, 2)]);
    setDown(rig, 'part:green', 210_000);
    expect(partOff(rig, 'green', Math.round((0.8 * mass) / 1_000))).toBe('parted replanned');
    expect(rig.now.open).toBe(lineId('chlorella'));
    expect(rig.line('chlorella').plan.target / 1_000).toBeCloseTo(0.8 * 6, 1);
    expect(rig.line('chlorella').planned.target).toBe(6_000);
    expect(partOff(rig, 'green', 10)).toBe('already-done');
    rig.weigh('chlorella');
    expect(rig.now.open).toBeNull();
    expect(hadIn(rig.now, 'part:green') / 1_000).toBeCloseTo(Math.round((0.8 * mass) / 1_000) + 4.8, 1);
  });

  it('whose additive is weighed already gets as much batter as that is for', () => {
    const rig = started(twoParts(true)).weighAll('chlorella');
    rig.setVessel('chlorella');
    expect(rig.accept('chlorella', 4.5, { how: 'held', shortIsFine: true }).ok).toBe(true);
    rig.weighAll();
    rig.makeLye();
    nameAll(rig);
    rig.join().must('stamp-trace', { mark: 'medium', note: '' });
    const { mass, by } = partTarget(rig.now, green(rig));
    expect([by, mass / 1_000]).toEqual(['additive', expect.closeTo(((0.5 * (batter(rig) - 4.5)) / 6) * 4.5, 0)]);
    setDown(rig, 'part:green', 210_000);
    // Nothing is moved that is weighed already.
    expect(partOff(rig, 'green', 250)).toBe('parted');
  });

  it('is no more than there is, from no other zero than its jug’s, and counts once', () => {
    const rig = joined();
    expect(setDown(rig, 'part:blue', 200_000)).toBe('no-such');
    expect(setDown(rig, 'part:green', 210_000)).toBe('container-set');
    expect(rig.code('part', { part: 'blue', mass: mg(100) })).toBe('no-such');
    expect(rig.code('part', { part: 'green', mass: mg(0) })).toBe('bad-number');
    expect(rig.code('part', { part: 'green', mass: mg(2_000_000) })).toBe('bad-number');
    expect(partOff(rig, 'green', 300)).toContain('parted');
    const weighed = rig.entries.find((entry) => entry.kind === 'parted')!.body.weighed!;
    const again = { mould: 1, from: ['pot'], mass: weighed.net, weighed } as const;
    expect(rig.code('pour-mould', again)).toBe('already-done');
    // A new episode of the same figures: the mould was never set down, so that zero is not its own.
    const settled = rig.settle(weighed.instrument, weighed.gross);
    const other = { ...again, weighed: { ...weighed, episode: settled.episode } };
    expect(rig.code('pour-mould', other, { observation: rig.seen(settled) })).toBe('wrong-vessel');
  });
});

/** The green half weighed in, its colour stirred in, both moulds set down. */
const parted = (): BatchRig => {
  const rig = joined();
  setDown(rig, 'part:green', 210_000);
  partOff(rig, 'green', 330);
  rig.weigh('chlorella');
  setDown(rig, 'mould:1', 350_000);
  setDown(rig, 'mould:2', 180_000);
  return rig;
};

describe('what is in a mould', () => {
  it('follows from one jug’s pour, lot by lot, to the milligram', () => {
    const rig = parted();
    expect(fill(rig, 1, 240, ['pot'])).toBe('mould-poured');
    const { mass, shares, parts, materials } = inMould(rig, 1);
    expect([mass, shares, total(parts), total(materials)]).toEqual([240_000, 'known', 240_000, 240_000]);
    expect(materials.map(({ line }) => line)).not.toContain('chlorella');
    const olive = materials.find(({ line }) => line === 'olive')!;
    expect(olive.mass).toBeCloseTo((240_000 * rig.line('olive').actual) / massOf(plainBatter(rig.now)), -0.5);
    expect(olive).toMatchObject({ material: { name: 'Olive oil' }, lot: { id: rig.line('olive').plan.lot?.id } });
  });

  it('poured by turns is known between bounds, and once what stayed in both jugs is weighed, exactly', () => {
    const rig = parted();
    expect(fill(rig, 2, 600, ['pot', 'part:green'])).toBe('mould-poured');
    const rough = inMould(rig, 2);
    expect([rough.mass, rough.shares]).toEqual([600_000, 'unknown']);
    const colour = rough.materials.find(({ line }) => line === 'chlorella')!;
    expect(colour).toMatchObject({ mass: null });
    expect(colour.low).toBeLessThan(colour.high);
    expect(colour.high).toBeLessThanOrEqual(rig.line('chlorella').actual);
    expect(weighLeft(rig, 'part:green', 36)).toBe('left-over');
    expect(weighLeft(rig, 'pot', 80)).toBe('left-over');
    expect(weighLeft(rig, 'pot', 80)).toBe('already-done');
    const sure = inMould(rig, 2);
    expect([sure.shares, total(sure.parts), total(sure.materials)]).toEqual(['known', 600_000, 600_000]);
    const known = sure.materials.find(({ line }) => line === 'chlorella')!.mass ?? NaN;
    expect(known).toBeGreaterThanOrEqual(colour.low);
    expect(known).toBeLessThanOrEqual(colour.high);
    expect(jobsToDo(rig.now).map(({ key }) => key)).toEqual(['mould:1']);
  });

  it('poured by turns is not known while a mould nobody weighed may have drawn on the same jugs', () => {
    const rig = parted();
    fill(rig, 2, 500, ['pot', 'part:green']);
    weighLeft(rig, 'part:green', 36);
    weighLeft(rig, 'pot', 24);
    // 170 g are in no mould and in no jug: they may stand in mould 1, and nobody knows out of which jug.
    const rough = inMould(rig, 2);
    expect(rough.shares).toBe('unknown');
    const [pot, ofGreen] = rough.parts;
    for (const one of [pot!, ofGreen!]) expect(one.high - one.low).toBeGreaterThan(100_000);
    fill(rig, 1, 165, ['pot']);
    expect(inMould(rig, 2).shares).toBe('known');
  });

  it('keeps lots of one line apart', () => {
    const rig = started(twoParts());
    rig.weighAll('olive').setVessel('olive');
    const [half] = [rig.line('olive').plan.target / 2_000];
    expect(rig.accept('olive', half, { part: true }).ok).toBe(true);
    rig.must('choose-lot', { line: lineId('olive'), lot: { id: as('lot-second'), mark: 'OL 9' } });
    rig.weighAll().makeLye();
    nameAll(rig);
    rig.join().must('stamp-trace', { mark: 'thin', note: '' });
    setDown(rig, 'mould:1', 350_000);
    fill(rig, 1, 500, ['pot']);
    const olive = inMould(rig, 1).materials.filter(({ line }) => line === 'olive');
    expect(olive.map(({ lot }) => lot?.mark)).toEqual([expect.not.stringMatching('OL 9'), 'OL 9']);
    expect(Math.abs((olive[0]?.mass ?? NaN) - (olive[1]?.mass ?? NaN))).toBeLessThanOrEqual(200);
  });

  it('counts no pour that was crossed out, and takes the next from where that one began', () => {
    const rig = parted();
    fill(rig, 1, 240, ['pot']);
    const [poured] = rig.now.pour.pours;
    const about = { entry: poured!.entry, reason: 'undone', note: '' } as const;
    expect(rig.code('strike', { ...about, held: false })).toBe('needs-hold');
    expect(rig.code('strike', { ...about, held: true })).toBe('struck');
    expect(rig.code('strike', { ...about, held: true })).toBe('already-done');
    expect(inMould(rig, 1).mass).toBeNull();
    expect(fill(rig, 1, 260, ['pot'])).toBe('mould-poured');
    expect(fill(rig, 1, 40, ['part:green'])).toBe('mould-poured');
    expect(inMould(rig, 1)).toMatchObject({ mass: 300_000, shares: 'known', parts: [{ mass: 260_000 }, { mass: 40_000 }] });
  });

  it('that nobody weighed may be anything up to what there is', () => {
    const { mass, shares, parts, materials } = inMould(parted(), 1);
    expect([mass, shares, parts.length]).toEqual([null, 'unknown', 2]);
    expect(materials.every((one) => one.mass === null && one.low === 0 && one.high > 0)).toBe(true);
  });

  it('by hand says so, and by the loss of its one jug is known', () => {
    const rig = parted();
    expect(rig.code('pour-mould', { mould: 1, from: ['pot', 'pot'], mass: mg(1_000) })).toBe('no-such');
    expect(rig.code('pour-mould', { mould: 1, from: [], mass: mg(1_000) })).toBe('no-such');
    expect(rig.code('pour-mould', { mould: 1, from: ['pot'], mass: mg(5_000_000) })).toBe('bad-number');
    expect(rig.code('pour-mould', { mould: 1, from: ['pot'], mass: mg(200_000) })).toBe('mould-poured');
    expect(inMould(rig, 1)).toMatchObject({ byHand: true, mass: 200_000, shares: 'known' });
    expect(leftOver(rig.now)).toBe(massOf(plainBatter(rig.now)) + rig.line('chlorella').actual - 200_000);
  });

  it('of a batch portioned without moulds is its portion of the pot', () => {
    const rig = started().weighAll().makeLye().join();
    rig.must('stamp-trace', { mark: 'thin', note: '' });
    const pot = Object.values(rig.now.vessels).find(({ state }) => state === 'joined')!.plan.id;
    rig.must('split', { vessel: pot, parts: [{ name: 'Log', mass: mg(800_000) }] });
    const { moulds } = review(rig.entries);
    expect(moulds).toMatchObject([{ mark: '26-11/1', name: 'Log', mass: 800_000, shares: 'known', mould: null, byHand: true }]);
    expect(total(moulds[0]!.materials)).toBe(800_000);
  });

  it('is the same after the record was read back', () => {
    const rig = parted();
    fill(rig, 2, 500, ['pot', 'part:green']);
    weighLeft(rig, 'pot', 90);
    rig.must('ask-photo', { of: 'top', mould: 2 });
    expect(rig.code('ask-photo', { of: 'top', mould: 2 })).toBe('already-done');
    const read = upcastLines(rig.entries.map((entry) => JSON.stringify(entry)));
    if (!read.ok) throw new Error(`${read.at} ${read.failure.detail}`);
    expect(mouldsOf(fold(read.entries)!)).toEqual(mouldsOf(rig.now));
    expect(review(read.entries)).toMatchObject({
      photos: [{ of: 'top', mark: '26-11/2' }],
      left: [{ of: 'pot', mass: 90_000, byHand: false }],
    });
  });
});
