import { describe, expect, it } from 'vitest';
import { grams } from '#lib/units/mass';
import { celsius } from '#lib/units/temperature';
import { PRECAUTIONS } from '#lib/work/batch/index';
import type { Decision, VesselMaterial } from '#lib/work/batch/index';
import { BatchRig, changed, lineId, planOf, started, vesselId } from '#tests/support/batch';

const codeOf = (decision: Decision) => (decision.ok ? decision.drafts.map(({ kind }) => kind).join(' ') : decision.refusal.code);

const soda = lineId('soda');
const gate = { gate: 'hydroxide', line: soda, items: PRECAUTIONS.hydroxide, held: true } as const;
const typed = { line: soda, typed: { net: grams(140.7), text: '140.7', unit: 'g' as const }, readBack: true, part: false };

describe('hydroxide', () => {
  it('nothing is set down, weighed or typed before the precautions are confirmed', () => {
    const rig = started().weighAll('soda');
    expect(codeOf(rig.setVessel('soda'))).toBe('needs-gate');
    expect(rig.code('type-weight', { ...typed, held: true })).toBe('needs-gate');
    rig.must('confirm-gate', gate);
    expect(codeOf(rig.setVessel('soda'))).toBe('vessel-set');
  });

  it('the gate is held, whole, and for a hydroxide line with a lot', () => {
    const rig = started().weighAll('soda');
    expect(rig.code('confirm-gate', { ...gate, held: false })).toBe('needs-hold');
    expect(rig.code('confirm-gate', { ...gate, items: PRECAUTIONS.hydroxide.slice(1) })).toBe('needs-gate');
    expect(rig.code('confirm-gate', { ...gate, line: lineId('water') })).toBe('no-such');
    const nameless = started(changed(planOf('alder-and-oat'), 'soda', { lot: null })).weighAll('soda');
    expect(nameless.code('confirm-gate', gate)).toBe('needs-lot');
  });

  it.each(['by-itself', 'go-on'] as const)('is never accepted by "%s", only held', (how) => {
    const rig = started().weighAll('soda');
    rig.must('confirm-gate', gate);
    rig.setVessel('soda');
    expect(codeOf(rig.accept('soda', 140.7, { how }))).toBe('needs-hold');
    expect(codeOf(rig.accept('soda', 140.7, { how: 'held' }))).toBe('weight-accepted line-closed');
  });

  it('the program cannot hold for a person', () => {
    const rig = started().weighAll('soda');
    rig.must('confirm-gate', gate);
    rig.setVessel('soda');
    expect(codeOf(rig.accept('soda', 140.7, { how: 'held' }, { role: 'program' }))).toBe('not-yours');
  });

  it('typed by hand it is held as well', () => {
    const rig = started().weighAll('soda');
    rig.must('confirm-gate', gate);
    expect(rig.code('type-weight', typed)).toBe('needs-hold');
    expect(rig.code('type-weight', { ...typed, held: true })).toBe('weight-typed line-closed');
  });

  it('an over-pour of it is carried on only with a hold, however calm', () => {
    const rig = started().weighAll('soda');
    rig.weigh('soda', 141.5);
    expect(rig.now.over).toMatchObject({ line: 'soda', red: false });
    expect(rig.code('answer-over', { line: soda, choice: 'carry-on', held: false })).toBe('needs-hold');
    expect(rig.code('answer-over', { line: soda, choice: 'carry-on', held: true })).toContain('over-answered');
  });

  it('an over-pour of it that is lye-heavy is never carried on by a word, held or not; it can be taken out', () => {
    const rig = started().weighAll('soda');
    rig.weigh('soda', 160);
    for (const held of [true, false]) expect(rig.send('answer-over', { line: soda, choice: 'carry-on', held }).ok).toBe(false);
    expect(rig.code('answer-over', { line: soda, choice: 'carry-on', held: true })).toBe('lye-heavy');
    expect(rig.now.over).toMatchObject({ line: 'soda' });
    expect(rig.code('answer-over', { line: soda, choice: 'cross-out', held: true })).toContain('struck');
  });

  it.each(['aluminium', 'zinc', 'tin'] as const)('a batch does not start with a cup, jug or pot of %s', (material: VesselMaterial) => {
    for (const use of ['hydroxide', 'liquid', 'oils']) {
      const plan = planOf('alder-and-oat');
      const vessels = plan.vessels.map((vessel) => (vessel.use === use ? { ...vessel, material } : vessel));
      expect(new BatchRig().code('start', { mark: '1', plan: { ...plan, vessels }, realm: 'test', bench: 'b' })).toBe('unfit-vessel');
    }
  });

  it('an unfit cup set aside for clay is no place for hydroxide', () => {
    const plan = planOf('alder-and-oat');
    const vessels = plan.vessels.map((vessel) => (vessel.id === 'clay-cup' ? { ...vessel, material: 'aluminium' as const } : vessel));
    const rig = started({ ...plan, vessels }).weighAll('soda');
    rig.must('confirm-gate', gate);
    expect(codeOf(rig.setVessel('soda', 18.9, 'clay-cup'))).toBe('unfit-vessel');
    expect(codeOf(rig.setVessel('soda', 96.2, 'scent-cup'))).toBe('wrong-vessel');
  });

  it('goes into cold liquid that was confirmed, held, and never the reverse', () => {
    const rig = started().weighAll();
    const cup = vesselId('soda-cup');
    const jug = vesselId('lye-jug');
    const cold = { gate: 'cold-liquid', line: null, items: PRECAUTIONS['cold-liquid'], held: true } as const;
    expect(rig.code('dissolve', { vessel: cup, into: jug, held: true })).toBe('needs-gate');
    rig.must('confirm-gate', cold);
    expect(rig.code('dissolve', { vessel: jug, into: cup, held: true })).toBe('wrong-order');
    expect(rig.code('dissolve', { vessel: cup, into: vesselId('oils-pot'), held: true })).toBe('wrong-vessel');
    expect(rig.code('dissolve', { vessel: cup, into: jug, held: false })).toBe('needs-hold');
    expect(rig.code('dissolve', { vessel: cup, into: jug, held: true })).toBe('dissolved');
    expect(rig.vessel('lye-jug')).toMatchObject({ state: 'dissolved', contents: 281_400 + 140_700 });
    expect(rig.vessel('soda-cup')).toMatchObject({ state: 'moved', contents: 0, deliveredTo: 'lye-jug' });
    expect(rig.now.gates['cold-liquid']).toBeUndefined();
  });

  it('never goes into what a probe or a hand says is hot, whatever was ticked', () => {
    const rig = started().weighAll();
    const into = { vessel: vesselId('soda-cup'), into: vesselId('lye-jug'), held: true };
    const cold = { gate: 'cold-liquid', line: null, items: PRECAUTIONS['cold-liquid'], held: true } as const;
    rig.lye = celsius(88);
    expect(rig.code('confirm-gate', cold)).toBe('lye-hot');
    rig.lye = null;
    rig.must('confirm-gate', cold);
    rig.lye = celsius(88);
    expect(rig.code('dissolve', into)).toBe('lye-hot');
    // A probe that hangs in the air does not outweigh a hand.
    rig.lye = celsius(21);
    rig.must('note-temperature', { use: 'lye', value: celsius(88), why: 'asked' });
    expect(rig.code('dissolve', into)).toBe('lye-hot');
    rig.must('note-temperature', { use: 'lye', value: celsius(22), why: 'asked' });
    expect(rig.code('dissolve', into)).toBe('dissolved');
  });

  it('more of it goes only into lye that has cooled, by what the probe says', () => {
    const rig = started().weighAll().makeLye();
    rig.enterAs('line-reopened', { line: soda });
    rig.enterAs('replanned', { lines: [{ ...rig.line('soda').plan, target: grams(145) }], reason: 'remedy' });
    expect(rig.weigh('soda').ok).toBe(true);
    const cold = { gate: 'cold-liquid', line: null, items: PRECAUTIONS['cold-liquid'], held: true } as const;
    rig.must('confirm-gate', cold);
    const into = { vessel: vesselId('soda-cup'), into: vesselId('lye-jug'), held: true };
    rig.lye = celsius(88);
    expect(rig.code('dissolve', into)).toBe('lye-hot');
    // Cool enough to join, and still rising.
    rig.lye = celsius(40);
    rig.more = { lyeSeen: { first: celsius(25), highest: celsius(40) } };
    expect(rig.code('dissolve', into)).toBe('lye-hot');
    rig.more = { lyeSeen: { first: celsius(25), highest: celsius(88) } };
    expect(rig.code('dissolve', into)).toBe('dissolved');
  });

  it('is not dissolved before both are weighed', () => {
    const rig = started().weighAll('soda');
    rig.must('confirm-gate', { gate: 'cold-liquid', line: null, items: PRECAUTIONS['cold-liquid'], held: true });
    expect(rig.code('dissolve', { vessel: vesselId('soda-cup'), into: vesselId('lye-jug'), held: true })).toBe('wrong-order');
    rig.weigh('soda', 140.7);
    expect(rig.code('dissolve', { vessel: vesselId('soda-cup'), into: vesselId('lye-jug'), held: true })).toBe('dissolved');
  });

  it('nothing of it after joining: no gate, no weight, no crossing out, no new line', () => {
    const rig = started().weighAll().makeLye().join();
    const entry = rig.line('soda').contributions[0]?.entry;
    expect(rig.code('confirm-gate', gate)).toBe('after-joining');
    expect(rig.code('strike', { entry: entry!, reason: 'mistyped', note: '', held: true })).toBe('after-joining');
    expect(rig.code('type-weight', { ...typed, held: true })).toBe('after-joining');
    expect(rig.code('dissolve', { vessel: vesselId('soda-cup'), into: vesselId('lye-jug'), held: true })).toBe('after-joining');
    const more = { ...rig.line('soda').plan, id: lineId('soda-2') };
    expect(rig.code('replan', { lines: [more], reason: 'remedy' })).toBe('after-joining');
  });

  it('what a person confirmed does not outlast a restart or a park', () => {
    const rig = started().weighAll('soda');
    rig.must('confirm-gate', gate);
    rig.boot = 'boot-2' as typeof rig.boot;
    rig.must('resume', { contents: 'as-recorded', note: '', held: true });
    expect(codeOf(rig.setVessel('soda'))).toBe('needs-gate');
    rig.must('confirm-gate', gate);
    rig.must('park', { reason: 'doorbell' });
    rig.must('take-up', { note: '' });
    expect(codeOf(rig.setVessel('soda'))).toBe('needs-gate');
  });
});
