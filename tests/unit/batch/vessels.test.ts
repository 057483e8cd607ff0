import { describe, expect, it } from 'vitest';
import { as } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import type { Decision } from '#lib/work/batch/index';
import { nextPortion, portionName } from '#lib/work/batch/portion-name';
import { review } from '#lib/work/batch/review';
import { MAIN, lineId, planOf, started, vesselId } from '#tests/support/batch';
import { crossable } from '../../../app/bench/_parts/crossable';

const codeOf = (decision: Decision) => (decision.ok ? decision.drafts.map(({ kind }) => kind).join(' ') : decision.refusal.code);
const pot = vesselId('oils-pot');
const program = { role: 'program', via: 'bench' } as const;

describe('a vessel on the pan', () => {
  it('is recognised by its empty mass; another is refused to the program, and believed of a person', () => {
    const rig = started();
    expect(codeOf(rig.setVessel('coconut', 646, undefined, program))).toBe('wrong-vessel');
    expect(codeOf(rig.setVessel('coconut', 645.4, undefined, program))).toBe('vessel-set');
    expect(codeOf(rig.setVessel('coconut', 700))).toBe('vessel-set');
    expect(rig.vessel('oils-pot').empty).toBe(700_000);
  });

  it('another vessel than the line’s is refused, and so is one that is not settled or too heavy', () => {
    const rig = started();
    expect(codeOf(rig.setVessel('coconut', 187.3, 'lye-jug'))).toBe('wrong-vessel');
    expect(codeOf(rig.setVessel('coconut', 642.5, 'nowhere'))).toBe('no-such');
    expect(codeOf(rig.setVessel('coconut', 642.5, undefined, { observation: rig.seen(null) }))).toBe('not-settled');
    rig.more = { capacity: { [MAIN]: grams(600) } };
    expect(codeOf(rig.setVessel('coconut', 642.5))).toBe('over-capacity');
  });

  it('the program cannot zero away a pour that was not accepted', () => {
    const rig = started();
    rig.setVessel('coconut');
    expect(codeOf(rig.setVessel('coconut', 642.5 + 150, undefined, program))).toBe('wrong-vessel');
  });
});

const accepted = () => {
  const rig = started();
  rig.setVessel('coconut');
  rig.accept('coconut', 280);
  return rig;
};

describe('an accepted vessel', () => {
  it('is provisional until it is lifted as it was accepted; lifting it is no alarm', () => {
    const rig = accepted();
    expect(rig.line('coconut').contributions[0]?.provisional).toBe(true);
    expect(rig.code('lift', { vessel: pot, gross: grams(922.6), within: mg(300) })).toBe('vessel-lifted');
    expect(rig.line('coconut').contributions[0]?.provisional).toBe(false);
    expect(rig.now).toMatchObject({ alarms: {}, pans: {}, question: null });
    expect(rig.code('lift', { vessel: pot, gross: grams(922.5) })).toBe('already-done');
  });

  it.each([
    [925, 'shifted-up'],
    [920, 'shifted-down'],
  ])('that weighed %d g when it was lifted asks a person', (gross, why) => {
    const rig = started();
    // The water is the last line in its jug: its lift is no pause in another pour.
    rig.weighAll('water');
    rig.setVessel('water');
    rig.accept('water', 281.4);
    const was = rig.vessel('lye-jug').standing?.gross ?? mg(0);
    const now = mg(was + (gross - 922.5) * 1_000);
    expect(rig.code('lift', { vessel: vesselId('lye-jug'), gross: now, within: mg(200) })).toBe('weight-questioned alarm-raised');
    expect(rig.now.question).toMatchObject({ why, was, now });
    expect(codeOf(rig.setVessel('soda'))).toBe('needs-answer');
  });

  it('lifted in the middle of the next pour says nothing of the weight before it', () => {
    const rig = accepted();
    expect(rig.code('lift', { vessel: pot, gross: grams(970) })).toBe('out-of-tolerance');
    expect(rig.line('coconut').contributions[0]?.provisional).toBe(true);
  });

  it('back from the hob at its mass goes on; unlike it asks', () => {
    const rig = accepted();
    rig.lift('coconut');
    expect(codeOf(rig.setVessel('shea', 923))).toBe('vessel-set');
    rig.must('note', { text: 'hob' });
    const again = accepted();
    again.lift('coconut');
    expect(codeOf(again.setVessel('shea', 910))).toBe('weight-questioned alarm-raised');
    expect(again.now.question).toMatchObject({ why: 'unlike-on-return', was: 922_500, now: 910_000 });
    expect(again.now.alarms['mass-on-return']).toBeDefined();
    expect(again.now.pans).toEqual({});
  });

  it('kept after a question: from now on it is expected as it is', () => {
    const rig = accepted();
    rig.lift('coconut');
    rig.setVessel('shea', 910);
    const { entry } = rig.now.question!;
    expect(rig.code('answer-question', { entry, answer: 'keep', held: true })).toBe('question-answered alarm-ended');
    expect(rig.vessel('oils-pot').standing?.gross).toBe(910_000);
    expect(rig.line('coconut').actual).toBe(280_000);
    expect(codeOf(rig.setVessel('shea', 910))).toBe('vessel-set');
  });

  it('crossed out after a question: its line is open again and counts from its old zero', () => {
    const rig = accepted();
    rig.lift('coconut');
    rig.setVessel('shea', 910);
    const { entry } = rig.now.question!;
    expect(rig.code('answer-question', { entry, answer: 'strike', held: true })).toBe('question-answered struck line-reopened alarm-ended');
    expect(rig.now.open).toBe('coconut');
    rig.setVessel('coconut', 910);
    expect(rig.now.pans[MAIN]).toMatchObject({ line: 'coconut', zero: 642_500 });
  });

  it('a change on the pan is a question and an alarm; kept, the next line counts from what stands there', () => {
    const rig = accepted();
    const { entry } = rig.line('coconut').contributions[0]!;
    expect(rig.code('question', { entry, why: 'changed-on-pan', now: grams(927) }, program)).toBe('weight-questioned alarm-raised');
    expect(rig.code('question', { entry, why: 'changed-on-pan', now: grams(927) }, program)).toBe('already-done');
    expect(rig.code('answer-question', { entry: 'entry-1' as never, answer: 'keep', held: false })).toBe('no-such');
    expect(rig.code('answer-question', { entry, answer: 'keep', held: false })).toBe('question-answered alarm-ended vessel-set');
    expect(rig.now.pans[MAIN]).toMatchObject({ line: 'shea', zero: 927_000 });
  });

  it('a doubted hydroxide weight is kept only with a hold', () => {
    const rig = started().weighAll('soda');
    rig.weigh('soda');
    const { entry } = rig.line('soda').contributions[0]!;
    rig.must('question', { entry, why: 'shifted-up', now: grams(200) }, program);
    expect(rig.code('answer-question', { entry, answer: 'keep', held: false })).toBe('needs-hold');
    expect(rig.code('answer-question', { entry, answer: 'keep', held: true })).toContain('question-answered');
  });
});

describe('a batch larger than the scale', () => {
  it('the jug carries over what is missing when it comes back, residue and all', () => {
    const rig = started(planOf('slate')).weighAll('olive');
    rig.setVessel('olive', 318.5 + 6);
    // The coconut oil went into the pot; 6 g stayed in the jug.
    expect(rig.vessel('batch-pot').contents).toBe(2_394_000);
    expect(rig.vessel('oils-jug').contents).toBe(6_000);
    rig.accept('olive', 4_000, { part: true });
    rig.lift('olive');
    expect(codeOf(rig.setVessel('olive', 318.5 + 10))).toBe('moved vessel-set');
    expect(rig.vessel('batch-pot').contents + rig.vessel('oils-jug').contents).toBe(6_400_000);
    expect(rig.vessel('oils-jug').contents).toBe(10_000);
    expect(codeOf(rig.accept('olive', 1_400))).toContain('line-closed');
    expect(rig.line('olive').actual).toBe(5_400_000);
  });

  it('joining brings together what stands in every jug', () => {
    const rig = started(planOf('slate')).weighAll().makeLye().join();
    const total = Object.values(rig.now.lines).reduce((sum, { plan, actual }) => (plan.phase === 'aside' ? sum : sum + actual), 0);
    expect(rig.vessel('batch-pot')).toMatchObject({ state: 'joined', contents: total });
    expect(rig.vessel('oils-jug')).toMatchObject({ state: 'moved', contents: 0 });
  });
});

describe('moves, withdrawals, losses and parts', () => {
  it('a move takes each line’s share with it, and leaves the residue', () => {
    const rig = started(planOf('slate')).weighAll('charcoal');
    const jug = rig.vessel('oils-jug').contents;
    rig.must('move', { from: vesselId('oils-jug'), to: vesselId('batch-pot'), mass: mg(jug - 3_000), residue: mg(3_000) });
    expect(rig.vessel('oils-jug')).toMatchObject({ contents: 3_000, state: 'moved' });
    const held = Object.values(rig.vessel('oils-jug').holds).reduce<number>((sum, mass) => sum + mass, 0);
    expect(held).toBe(3_000);
  });

  it.each([
    ['more than is there', { mass: grams(1_001), residue: null }],
    ['with a residue beyond what is there', { mass: grams(1_000), residue: grams(1) }],
    ['nothing', { mass: mg(0), residue: null }],
  ])('refuses to move %s', (_name, body) => {
    const rig = started().weighAll('alder-scent');
    expect(rig.code('move', { from: pot, to: vesselId('lye-jug'), ...body })).toBe('bad-number');
  });

  it('hydroxide and lye are no plain move', () => {
    const rig = started().weighAll();
    const soda = { from: vesselId('soda-cup'), mass: grams(10), residue: null };
    expect(rig.code('move', { ...soda, to: vesselId('lye-jug') })).toBe('wrong-order');
    rig.makeLye();
    expect(rig.code('move', { from: vesselId('lye-jug'), to: pot, mass: grams(10), residue: null })).toBe('wrong-order');
  });

  it('a withdrawal is a fraction of the mixture: every line loses its share', () => {
    const rig = started().weighAll('alder-scent');
    rig.must('withdraw', { vessel: pot, mass: grams(100), to: 'waste' });
    const entry = rig.entries.find(({ kind }) => kind === 'withdrawn');
    expect(entry).toMatchObject({ body: { ppm: 100_000 } });
    expect(['coconut', 'shea', 'olive', 'rapeseed'].map((id) => rig.line(id).actual)).toEqual([252_000, 108_000, 360_000, 180_000]);
    expect(rig.now.open).toBe('coconut');
  });

  it('what leaves opens a line that falls short, before joining only', () => {
    const rig = started().weighAll();
    expect(rig.code('lose', { vessel: vesselId('scent-cup'), mass: grams(2), cause: 'spill', note: '' })).toBe('lost line-reopened');
    expect(rig.now.open).toBe('alder-scent');
    const typed = { net: mg(0), text: '0', unit: 'g' } as const;
    const enough = { line: lineId('alder-scent'), typed, readBack: true, part: false };
    expect(rig.code('type-weight', enough)).toBe('out-of-tolerance');
    expect(rig.code('type-weight', { ...enough, shortIsFine: true })).toBe('weight-typed line-closed');
    rig.makeLye().join();
    expect(rig.code('lose', { vessel: pot, mass: grams(50), cause: 'spill', note: '' })).toBe('lost');
  });

  it('only liquids evaporate', () => {
    const rig = started().weighAll().makeLye();
    const solution = rig.line('soda').actual;
    rig.must('lose', { vessel: vesselId('lye-jug'), mass: grams(2), cause: 'evaporation', note: '' });
    expect(rig.line('soda').actual).toBe(solution);
    expect(rig.line('water').actual).toBe(279_400);
    expect(rig.code('lose', { vessel: vesselId('oat-cup'), mass: grams(1), cause: 'evaporation', note: '' })).toBe('bad-number');
  });

  it('back into the bottle goes only what is one material, and never hydroxide', () => {
    const rig = started().weighAll();
    expect(rig.code('withdraw', { vessel: pot, mass: grams(5), to: 'bottle' })).toBe('wrong-vessel');
    expect(rig.code('withdraw', { vessel: vesselId('soda-cup'), mass: mg(200), to: 'bottle' })).toBe('wrong-vessel');
    expect(rig.code('withdraw', { vessel: vesselId('scent-cup'), mass: mg(200), to: 'bottle' })).toBe('withdrawn');
    expect(rig.code('withdraw', { vessel: vesselId('scent-cup'), mass: grams(100), to: 'waste' })).toBe('bad-number');
  });

  it('the batter is split into parts, never more than there is', () => {
    const rig = started().weighAll();
    const parts = [
      { name: 'plain', mass: grams(700) },
      { name: 'green', mass: grams(700) },
    ];
    expect(rig.code('split', { vessel: pot, parts })).toBe('wrong-state');
    rig.makeLye().join();
    rig.must('split', { vessel: pot, parts });
    expect(rig.now.parts.map(({ name, mass }) => [name, mass])).toEqual([
      ['plain', 700_000],
      ['green', 700_000],
    ]);
    expect(rig.vessel('oils-pot')).toMatchObject({ state: 'portioned', contents: 1_422_100 - 1_400_000 });
    expect(rig.code('split', { vessel: pot, parts })).toBe('bad-number');
    expect(rig.code('split', { vessel: vesselId('oat-cup'), parts })).toBe('wrong-order');
  });

  it('a portion that was crossed out is in its pot again, line by line; so is what was taken out of the batter', () => {
    const rig = started().weighAll().makeLye().join();
    const before = rig.vessel('oils-pot');
    rig.must('split', { vessel: pot, parts: [{ name: portionName(1), mass: grams(500) }] });
    const [second] = rig.must('split', { vessel: pot, parts: [{ name: portionName(2), mass: grams(400) }] });
    const entry = rig.now.parts[0]!.entry;
    expect(crossable(rig.now).map(({ name, mass }) => [name, mass])).toEqual(
      expect.arrayContaining([
        [portionName(2), 400_000],
        [portionName(1), 500_000],
      ]),
    );
    const strike = { entry, reason: 'mistyped', note: '', held: true } as const;
    expect(rig.code('strike', { ...strike, held: false })).toBe('needs-hold');
    rig.must('strike', strike);
    expect(rig.now.parts.map(({ name }) => name)).toEqual([portionName(2)]);
    // Its number is not given again.
    expect(nextPortion(rig.now.parts)).toBe(3);
    expect(rig.vessel('oils-pot')).toMatchObject({ state: 'portioned', contents: before.contents - 400_000 });
    rig.must('strike', { ...strike, entry: second!.id });
    expect(rig.vessel('oils-pot')).toMatchObject({ state: 'joined', contents: before.contents, holds: before.holds });
    const told = review(rig.entries).story.filter(({ code }) => code === 'crossed-out');
    expect(told.map(({ params }) => [params['material'], params['net']])).toEqual([
      ['oils pot', 500_000],
      ['oils pot', 400_000],
    ]);
    rig.must('withdraw', { vessel: pot, mass: grams(60), to: 'waste' });
    const [out] = crossable(rig.now);
    expect(out).toMatchObject({ mass: -60_000 });
    rig.must('strike', { ...strike, entry: as(out!.entry) });
    expect(rig.vessel('oils-pot')).toMatchObject({ contents: before.contents, holds: before.holds });
    // A weight of hydroxide stays: that lye is in the pot.
    const soda = rig.line('soda').contributions[0]!.entry;
    expect(rig.code('strike', { ...strike, entry: soda })).toBe('after-joining');
  });
});

const back = (rig: ReturnType<typeof started>, line: string, vessel: string, residue: number) => {
  const empty = rig.vessel(vessel).empty ?? mg(0);
  const { instrument, gross, episode } = rig.settle(rig.scaleOf(line), mg(empty + grams(residue)));
  const weighed = {
    gross,
    zero: empty,
    net: grams(residue),
    text: '',
    unit: 'g',
    step: mg(10),
    raw: '',
    instrument,
    check: null,
    episode,
    strip: null,
  } as const;
  return rig.code(
    'weigh-back',
    { line: lineId(line), vessel: vesselId(vessel), weighed },
    { observation: rig.seen({ instrument, gross, episode }) },
  );
};

describe('weighing back', () => {
  it('what stayed in the cup of the fragrance was not delivered', () => {
    const rig = started().weighAll().makeLye().join();
    expect(back(rig, 'alder-scent', 'scent-cup', 0.4)).toBe('moved weighed-back');
    expect(rig.line('alder-scent').actual).toBe(24_600);
    expect(rig.vessel('scent-cup').contents).toBe(0);
    expect(rig.vessel('oils-pot').holds).toMatchObject({ 'alder-scent': 24_600 });
    expect(back(rig, 'alder-scent', 'scent-cup', 0.3)).toBe('already-done');
  });

  it('a jug that still stands full was never poured: nothing of its lines is taken back', () => {
    const rig = started(planOf('slate')).weighAll('olive');
    expect(rig.vessel('oils-jug').contents).toBe(2_400_000);
    expect([2_400, 1_201].map((grams) => back(rig, 'coconut', 'oils-jug', grams))).toEqual(['no-jug', 'no-jug']);
    expect(rig.line('coconut').actual).toBe(2_400_000);
    expect(back(rig, 'coconut', 'oils-jug', 6)).toContain('weighed-back');
  });

  it('what the record left in a jug that was poured over by word is its rest, and may be weighed back', () => {
    const rig = started(planOf('slate')).weighAll('olive');
    const move = { from: vesselId('oils-jug'), to: vesselId(rig.line('coconut').plan.into ?? 'oils-pot'), residue: null };
    rig.must('move', { ...move, mass: grams(2_000) });
    expect(back(rig, 'coconut', 'oils-jug', 390)).toBe('no-jug');
    rig.must('move', { ...move, mass: grams(390) });
    expect(rig.vessel('oils-jug').contents).toBe(10_000);
    expect(back(rig, 'coconut', 'oils-jug', 250)).toBe('no-jug');
    expect(back(rig, 'coconut', 'oils-jug', 8)).toBe('moved weighed-back');
    expect(rig.line('coconut').actual).toBe(2_392_000);
  });

  it('2 g of lye left in the jug are water and hydroxide by their shares', () => {
    const rig = started().weighAll().makeLye().join();
    expect(back(rig, 'water', 'lye-jug', 2)).toBe('weighed-back');
    const water = 281_400 - rig.line('water').actual;
    const soda = 140_700 - rig.line('soda').actual;
    expect([water, soda, water + soda]).toEqual([1_333, 667, 2_000]);
    expect(rig.vessel('oils-pot').contents).toBe(1_422_100 - 2_000);
  });

  it('before joining, out of a vessel nothing was poured from, there is nothing to weigh back', () => {
    const rig = started().weighAll();
    expect(back(rig, 'alder-scent', 'scent-cup', 0.4)).toBe('wrong-order');
  });

  it('counts from the empty vessel and not beyond what was in it', () => {
    const rig = started().weighAll().makeLye().join();
    expect(back(rig, 'alder-scent', 'scent-cup', 30)).toBe('wrong-vessel');
    expect(back(rig, 'alder-scent', 'scent-cup', -1)).toBe('bad-number');
    expect(back(rig, 'oat', 'scent-cup', 0.4)).toBe('wrong-vessel');
  });
});
