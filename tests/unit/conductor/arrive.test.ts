import { describe, expect, it } from 'vitest';
import { FINE, line, MAIN, OLIVE, planOf, Rig, SHEA, SODA, VESSELS, WATER, vesselId } from './rig';

const dipped = (): Rig => {
  const rig = new Rig();
  rig.temperatures.oils = 21_000 as never;
  rig
    .start(planOf([OLIVE, SHEA, WATER]))
    .rest(500)
    .pour(690)
    .run(3);
  rig.temperatures.oils = 48_000 as never;
  return rig.run(2);
};

describe('who stands on the pan', () => {
  it('another vessel of the plan is named and takes no zero', () => {
    const rig = new Rig().start(planOf([OLIVE, WATER])).rest(200);
    expect(rig.seen).toMatchObject({ phase: 'strange-vessel', block: 'wrong-vessel' });
    expect(rig.seen.say).toMatchObject({ code: 'wrong-vessel', params: { vessel: 'jug', wanted: 'pot' } });
    expect(rig.kinds()).not.toContain('vessel-set');
  });

  it('a stranger is the vessel only when a person holds to it', () => {
    const rig = new Rig().start(planOf([OLIVE, WATER])).rest(740);
    expect(rig.seen).toMatchObject({ phase: 'strange-vessel', cards: [{ code: 'it-is-vessel', hold: true }] });
    // All that it weighs more than the pot does empty would be in no weight.
    expect(rig.seen.cards[0]?.params).toEqual({ vessel: 'pot', gross: 740_000, more: 240_000 });
    rig.take('it-is-vessel', false);
    expect(rig.kinds()).not.toContain('vessel-set');
    rig.take('it-is-vessel', true).run(0.2);
    expect(rig.seen.phase).toBe('ready');
  });

  it('two vessels alike are told apart by a person', () => {
    const twin = { ...VESSELS.cup!, id: vesselId('twin'), name: 'twin', empty: 501_000 as never };
    const rig = new Rig().start(planOf([OLIVE, WATER], [...Object.values(VESSELS), twin])).rest(500);
    expect(rig.seen).toMatchObject({ phase: 'strange-vessel', cards: [{ code: 'it-is-vessel', hold: false }] });
  });

  it('one that was emptied by word and reads as it did full is no other vessel, however like', () => {
    const scent = line('scent', { class: 'fragrance', target: 20, tolerance: 0.2, vessel: 'cup' });
    const plan = planOf([WATER, scent, OLIVE]);
    const alike = { ...plan, vessels: plan.vessels.map((one) => (one.id === 'cup' ? { ...one, empty: 350_500 as never } : one)) };
    const rig = new Rig().start(alike).rest(200).pour(350).run(6).rest(0);
    const mass = rig.line('water').actual;
    rig.send({ kind: 'move', body: { from: vesselId('jug'), to: vesselId('pot'), mass, residue: 0 as never } }, 'maker');
    expect(rig.state).toMatchObject({ open: 'scent', vessels: { jug: { state: 'moved', contents: 0 } } });
    rig.rest(350);
    expect(rig.seen).toMatchObject({ phase: 'strange-vessel', line: 'scent' });
    expect(rig.state.pans[MAIN]).toBeUndefined();
  });

  it('a vessel nobody has weighed yet is confirmed once and known from then on', () => {
    const rig = new Rig().start(planOf([OLIVE, WATER], [{ ...VESSELS.pot!, empty: null }, VESSELS.jug!])).rest(620);
    expect(rig.seen).toMatchObject({ phase: 'strange-vessel', cards: [{ code: 'it-is-vessel', hold: false }] });
    rig.run(1).take('it-is-vessel', false).run(0.2);
    expect(rig.seen.phase).toBe('ready');
    expect(rig.state.vessels[vesselId('pot')]?.empty).toBe(620_000);
  });

  it('a vessel on the other scale is said aloud', () => {
    const rig = new Rig().start(planOf([OLIVE, WATER])).rest(500, FINE);
    expect(rig.seen).toMatchObject({ phase: 'waiting-vessel', block: 'other-scale' });
    expect(rig.seen.say).toMatchObject({ code: 'other-scale', params: { vessel: 'pot', scale: 'main' } });
  });

  it('each line is weighed on the scale that can serve it', () => {
    const scent = line('scent', { class: 'fragrance', target: 20, tolerance: 0.2, vessel: 'cup', more: { scale: 'fine' } });
    const rig = new Rig().start(planOf([scent, WATER])).rest(100, FINE);
    expect(rig.seen).toMatchObject({ phase: 'ready', instrument: FINE });
    rig.pour(120, 6, FINE).run(5);
    expect(rig.line('scent').contributions.at(-1)).toMatchObject({ net: 20_000, how: 'by-itself' });
  });

  it('the empty pan is followed, and never while a vessel is set: no zero tracking eats the first drops', () => {
    const rig = new Rig()
      .start(planOf([OLIVE, WATER]))
      .rest(0.2)
      .rest(500.2);
    expect(rig.state.pans[MAIN]?.zero).toBe(500_200);
    for (let drop = 0; drop < 6; drop += 1) rig.rest(500.2 + 0.05 * (drop + 1), MAIN, 2);
    expect(rig.seen.poured).toBe(300);
    expect(rig.state.pans[MAIN]?.zero).toBe(500_200);
  });

  const carried = line('big', { class: 'liquid-oil', target: 300, tolerance: 2, vessel: 'jug', more: { into: vesselId('pot') } });
  /** A part of 180 g is in the record, and the jug is off the pan. */
  const partKept = (): Rig => {
    const rig = new Rig()
      .start(planOf([carried, WATER]))
      .rest(200)
      .pour(380)
      .run(3);
    rig.step({ kind: 'ask', ask: 'part-pour' });
    return rig.run(1).rest(0);
  };

  it('a jug poured out between two parts is known by what it weighs with what clings to it', () => {
    const rig = partKept().rest(209);
    expect(rig.entries.find(({ kind }) => kind === 'moved')?.body).toMatchObject({ from: 'jug', to: 'pot', mass: 171_000, residue: 9000 });
    expect(rig.seen).toMatchObject({ phase: 'ready', line: 'big', left: 120_000 });
    expect(rig.state.pans[MAIN]).toMatchObject({ vessel: 'jug', zero: 209_000 });
  });

  it('a jug that comes back with more in it than clings is for a person to know', () => {
    const rig = partKept().rest(240);
    expect(rig.seen).toMatchObject({ phase: 'strange-vessel', cards: [{ code: 'it-is-vessel', hold: true }] });
    expect(rig.kinds()).not.toContain('moved');
  });

  it('a full jug that might come back with much clinging to it is no rival to the one that reads exactly what is wanted', () => {
    const oils = { ...VESSELS.pot!, id: vesselId('oils-jug'), name: 'oils jug', empty: 150_000 as never };
    const first = line('big', { class: 'liquid-oil', target: 600, tolerance: 5, vessel: 'oils-jug', more: { into: vesselId('pot') } });
    const plan = planOf([first, WATER], [...Object.values(VESSELS), oils]);
    const full = (): Rig => new Rig().start(plan).rest(150).pour(750).run(6).rest(0);
    expect(full().rest(200).seen).toMatchObject({ phase: 'ready', line: 'water' });
    expect(full().rest(206).seen).toMatchObject({ phase: 'strange-vessel', block: 'wrong-vessel' });
  });

  it('a pot that should be full and comes back empty is no jug poured out', () => {
    const rig = new Rig()
      .start(planOf([OLIVE, SHEA, WATER]))
      .rest(500)
      .pour(700)
      .run(6)
      .rest(0)
      .rest(509);
    expect(rig.seen.phase).toBe('strange-vessel');
    expect(rig.state.pans[MAIN]).toBeUndefined();
  });

  it('a probe standing in the vessel blocks zero and acceptance until it is out', () => {
    const rig = new Rig().start(planOf([OLIVE, WATER]));
    rig.probesInVessel = [vesselId('pot')];
    rig.rest(500);
    expect(rig.seen).toMatchObject({ phase: 'blocked', block: 'probe-leaning' });
    rig.probesInVessel = [];
    rig.run(0.5).pour(700);
    rig.probesInVessel = [vesselId('pot')];
    rig.run(6);
    expect(rig.seen).toMatchObject({ phase: 'blocked', block: 'probe-leaning' });
    rig.probesInVessel = [];
    expect(rig.run(3).kinds()).toContain('weight-accepted');
  });

  it('a probe dipped while the vessel stands there shows by its leap, and by its leap back', () => {
    const rig = new Rig();
    rig.temperatures.oils = 21_000 as never;
    rig
      .start(planOf([OLIVE, SHEA, WATER]))
      .rest(500)
      .pour(690)
      .run(3);
    rig.temperatures.oils = 48_000 as never;
    rig.run(2).pour(700, 2).run(5);
    expect(rig.seen).toMatchObject({ phase: 'blocked', block: 'probe-leaning' });
    rig.temperatures.oils = 40_000 as never;
    rig.run(5);
    expect(rig.kinds()).toContain('weight-accepted');
  });

  it('a probe that only seems to lean is out when a person holds to it, and not before', () => {
    const rig = dipped().pour(700, 2).run(5);
    expect(rig.seen).toMatchObject({ block: 'probe-leaning', goOn: { code: 'probe-out', hold: true } });
    rig.press('go-on').run(3);
    expect(rig.kinds()).not.toContain('weight-accepted');
    rig.press('go-on', true).run(3);
    expect(rig.kinds()).toContain('weight-accepted');
  });

  it('a probe known to be in is not out because somebody says so', () => {
    const rig = new Rig()
      .start(planOf([OLIVE, WATER]))
      .rest(500)
      .pour(700);
    rig.probesInVessel = [vesselId('pot')];
    expect(rig.run(5).seen).toMatchObject({ block: 'probe-leaning', goOn: null });
  });

  it('a leap too sudden to be believed at once is a leap all the same', () => {
    const rig = new Rig();
    rig.temperatures.oils = 21_000 as never;
    rig
      .start(planOf([OLIVE, SHEA, WATER]))
      .rest(500)
      .pour(690)
      .run(3);
    rig.temperatures.oils = null;
    rig.run(8);
    rig.temperatures.oils = 48_000 as never;
    rig.pour(700, 2).run(6);
    expect(rig.seen).toMatchObject({ phase: 'blocked', block: 'probe-leaning' });
  });

  it('a probe is out when its vessel has left the pan, though the probe itself has fallen silent', () => {
    const rig = dipped().pour(694, 2).run(3);
    expect(rig.seen).toMatchObject({ phase: 'short', block: 'probe-leaning', goOn: { code: 'probe-out' } });
    rig.temperatures.oils = null;
    rig.send(
      {
        kind: 'type-weight',
        body: { line: OLIVE.id, typed: { net: 200_000 as never, text: '200', unit: 'g' }, readBack: true, part: false },
      },
      'maker',
    );
    rig.run(1);
    expect(rig.memory.probes.oils?.dipped ?? false).toBe(false);
  });

  it('a short weight is not taken while a probe leans, however long somebody holds', () => {
    const rig = new Rig()
      .start(planOf([OLIVE, WATER]))
      .rest(500)
      .pour(694)
      .run(3);
    rig.probesInVessel = [vesselId('pot')];
    rig.run(1).press('go-on', true).run(1);
    expect(rig.seen).toMatchObject({ block: 'probe-leaning', goOn: null });
    expect(rig.kinds()).not.toContain('weight-accepted');
  });

  it('lye made beside a cup of hydroxide says nothing of the cup', () => {
    const rig = new Rig();
    rig.temperatures.lye = 21_000 as never;
    rig
      .start(planOf([SODA, WATER]))
      .press('go-on', true)
      .rest(60)
      .pour(130, 5)
      .run(2);
    rig.temperatures.lye = 70_000 as never;
    expect(rig.run(4).seen.phase).toBe('hold');
  });
});
