import { describe, expect, it } from 'vitest';
import { grams } from '#lib/units/mass';
import { as } from '#lib/units/id';
import { celsius } from '#lib/units/temperature';
import { foretellLye } from '#lib/work/batch/lye-making';
import { PRECAUTIONS } from '#lib/work/batch/index';
import type { Decision, VesselMaterial } from '#lib/work/batch/index';
import { BatchRig, changed, lineId, planOf, started, vesselId } from '#tests/support/batch';
import { formula, WATER } from '#tests/support/formula';
import { computed } from '#tests/support/remedy-rig';

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

  it('is locked where the lye would get hotter than its jug is made for, from what its liquid has now', () => {
    const plain = computed(formula());
    const made = (hottest?: number) => {
      const vessels = plain.vessels.map((vessel) =>
        vessel.use === 'liquid' && hottest !== undefined ? { ...vessel, hottest: celsius(hottest) } : vessel,
      );
      return started({ ...plain, vessels }).weighAll('soda');
    };
    // A third of hydroxide from 20 °C comes to about 106 °C with nothing lost.
    const rig = made(100);
    rig.lye = celsius(20);
    const no = rig.send('confirm-gate', gate);
    expect(no.ok ? null : no.refusal).toMatchObject({ code: 'over-rating', params: { rating: 100_000 } });
    expect(no.ok ? 0 : no.refusal.params['peak']).toBeGreaterThan(104_000);
    // Colder liquid, and by a hand where no probe stands: from 5 °C it comes to about 92 °C.
    rig.lye = null;
    rig.must('note-temperature', { use: 'lye', value: celsius(4), why: 'asked' });
    rig.must('confirm-gate', gate);
    rig.weigh('soda');
    rig.lye = celsius(30);
    const cold = { gate: 'cold-liquid', line: null, items: PRECAUTIONS['cold-liquid'], held: true } as const;
    expect(rig.code('confirm-gate', cold)).toBe('over-rating');
    expect(made(120).code('confirm-gate', gate)).toBe('gate-confirmed');
    expect(made().code('confirm-gate', gate)).toBe('gate-confirmed');
  });

  it('into milk that was planned frozen: its ice cools the lye, until the probe says that it has thawed', () => {
    const entries = [...formula().entries.filter(({ id }) => id !== 'water'), { ...WATER, frozen: true }];
    const plan = computed(formula({ entries }));
    expect(plan.lines.find(({ id }) => id === 'water')?.frozen).toBe(true);
    const vessels = plan.vessels.map((vessel) => (vessel.use === 'liquid' ? { ...vessel, hottest: celsius(90) } : vessel));
    const rig = started({ ...plan, vessels }).weighAll('soda');
    const peak = (liquid: number): number => foretellLye(rig.now, liquid)?.peak.atMost.value ?? Number.NaN;
    expect(peak(0)).toBeLessThan(peak(20) - 40);
    rig.lye = celsius(18);
    expect(rig.code('confirm-gate', gate)).toBe('over-rating');
    rig.lye = celsius(0);
    expect(rig.code('confirm-gate', gate)).toBe('gate-confirmed');
  });

  it('what was foretold of the lye is kept with it, and its top, by the program alone', () => {
    const rig = started(computed(formula())).weighAll();
    rig.lye = celsius(20);
    rig.makeLye();
    const made = rig.entries.find((entry) => entry.kind === 'dissolved');
    const foretold = made?.kind === 'dissolved' ? made.body.foretold : undefined;
    expect(foretold?.likely.value).toBeGreaterThan(80_000);
    expect(rig.now.lyeForetold).toEqual(foretold);
    const top = { use: 'lye', value: celsius(84), why: 'peak', source: { instrument: as<never>('probe-1'), raw: '84.0' } } as const;
    expect(rig.code('note-temperature', top)).toBe('wrong-state');
    expect(rig.code('note-temperature', top, { role: 'program', via: 'server' })).toBe('temperature-noted');
    expect(rig.now.tops.lye).toBe(84_000);
    rig.join();
    expect(rig.code('note-temperature', top, { role: 'program', via: 'server' })).toBe('wrong-state');
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
