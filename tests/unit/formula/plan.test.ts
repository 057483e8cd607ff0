import { describe, expect, it } from 'vitest';
import { fatById } from '#lib/soap/fats/index';
import { mg } from '#lib/units/mass';
import { SAMPLE_FORMULAS } from '#lib/work/formula/sample/formulas';
import { SAMPLE_PLANS } from '#lib/work/formula/sample';
import { entry, formula, grams, mass, planned, REST, share, SODA, WATER, withEntry, workshop, WORKSHOP } from '#tests/support/formula';
import { RICH, RICH_WORKSHOP } from '#tests/support/rich-formula';

const phases = (plan: ReturnType<typeof planned>): readonly string[] => plan.plan.lines.map(({ id, phase }) => `${phase} ${id}`);

/** Every kind of number a formula holds, with one decimal mark. */
const withMark = (mark: string) => {
  const typed = (text: string): string => text.replace('.', mark);
  const temperatures = {
    window: { low: typed('30.5'), high: typed('45.5') },
    apart: typed('5.5'),
    apartLevel: 'hold',
    setsAt: typed('27.5'),
    milkLimit: null,
    pourAt: typed('38.5'),
  } as const;
  return formula({
    wishes: { superfat: typed('5.5'), lye: { kind: 'concentration', percent: typed('31.5') } },
    size: { kind: 'batch', value: typed('1.5'), unit: 'kg' },
    moulds: [{ mould: 'short-loaf', count: 1, fill: typed('92.5') }],
    limits: { superfat: { low: typed('3.5'), high: typed('8.5') }, lye: null },
    temperatures,
  });
};

describe('a formula as a plan', () => {
  it('by hand: 300 g at 257 and 700 g at 190, 5 %, soda of 99 %, a lye of 33 %', () => {
    const plan = planned(formula());
    const naoh = ((300 * 257 + 700 * 190) / 1000) * (39.99677 / 56.1053) * 0.95;
    expect(grams(plan, 'soda')).toBeCloseTo(naoh / 0.99, 2);
    expect(grams(plan, 'water')).toBeCloseTo(naoh / 0.33 - naoh / 0.99, 2);
    expect(plan.figures.lyeConcentration).toBeCloseTo(0.33, 9);
  });

  it.each(SAMPLE_PLANS.map(({ id, plan }) => [id, plan] as const))('%s comes near the plan typed for it', (id, before) => {
    const of = SAMPLE_FORMULAS.find((one) => one.id === id);
    if (of === undefined) throw new Error(id);
    const { plan } = planned(of);
    expect(plan.formula).toEqual(before.formula);
    expect(plan.lines.map((line) => line.id).toSorted()).toEqual(before.lines.map((line) => line.id).toSorted());
    for (const line of before.lines) {
      const ours = plan.lines.find((one) => one.id === line.id);
      expect(Math.abs((ours?.target ?? 0) / line.target - 1), line.id).toBeLessThan(0.012);
      expect([ours?.phase, ours?.material.class, ours?.into !== undefined], line.id).toEqual([
        line.phase,
        line.material.class,
        line.into !== undefined,
      ]);
    }
  });

  it('orders the work: what melts last, liquid oils, what waits, the liquid, then hydroxide', () => {
    expect(phases(planned(RICH, RICH_WORKSHOP))).toEqual([
      'oils tallow',
      'oils shea',
      'oils coconut',
      'oils olive',
      'oils castor',
      'aside lavender',
      'aside rosemary',
      'aside cedar',
      'aside kaolin',
      'liquid milk',
      'liquid water',
      'liquid citric',
      'hydroxide soda',
      'hydroxide potash',
    ]);
  });

  it('puts each hydroxide in its own cup, a blend in one, and alkali into liquid, never the reverse', () => {
    const { plan, steps } = planned(RICH, RICH_WORKSHOP);
    const of = (id: string) => plan.lines.find((line) => line.id === id)?.vessel;
    const use = (id: string) => plan.vessels.find((vessel) => vessel.id === of(id))?.use;
    expect([use('soda'), use('potash'), use('milk')]).toEqual(['hydroxide', 'hydroxide', 'liquid']);
    expect(of('soda')).not.toBe(of('potash'));
    expect(new Set([of('lavender'), of('rosemary'), of('cedar')]).size).toBe(1);
    const kinds = steps.map(({ kind }) => kind);
    const dissolves = steps.filter((step) => step.kind === 'dissolve');
    expect(dissolves.map(({ into }) => into)).toEqual([of('milk'), of('milk')]);
    expect(kinds.indexOf('protect')).toBeLessThan(steps.findIndex((step) => step.kind === 'weigh' && step.line === 'soda'));
    expect(kinds.indexOf('confirm-cold')).toBeLessThan(kinds.indexOf('dissolve'));
    expect(kinds.indexOf('dissolve')).toBeLessThan(kinds.indexOf('join'));
  });

  it('says how the hard fats are melted by themselves, and what the pot is with the rest in', () => {
    const { plan, steps } = planned(RICH, RICH_WORKSHOP);
    const melt = steps.find((step) => step.kind === 'melt');
    if (melt?.kind !== 'melt' || melt.how === null) throw new Error('nothing to melt');
    const { order, heatTo, afterwards, maySet, pourAt, wished } = melt.how;
    expect(order).toEqual(['Beef tallow', 'Shea butter, unrefined', 'Coconut oil']);
    const of = (kind: string): number =>
      plan.lines.filter(({ material }) => material.class === kind).reduce((sum, { target }) => sum + target, 0);
    const [hard, rest] = [of('hard-oil'), of('liquid-oil')];
    // One fat takes up heat much like another.
    expect(afterwards).toBeCloseTo((hard * heatTo + rest * 20) / (hard + rest), 0);
    expect((hard * (pourAt ?? 0) + rest * 20) / (hard + rest)).toBeCloseTo(wished, 0);
    expect(maySet).toEqual(['Beef tallow']);
    // Tallow is the hardest that counts: from where it is melted through, a fat of the pot may begin to set.
    expect(melt.how.setsBelow).toBe(fatById('tallow').melting?.high);
    const seen = {
      ...RICH,
      temperatures: {
        window: { low: '30', high: '50' },
        apart: '6',
        apartLevel: 'hold',
        setsAt: '33',
        milkLimit: null,
        pourAt: '40',
      } as const,
    };
    const told = planned(seen, RICH_WORKSHOP).steps.find((step) => step.kind === 'melt');
    expect(told?.kind === 'melt' ? told.how?.setsBelow : null).toBe(37);
  });

  it('splits alkali by moles, each with its own purity', () => {
    const plan = planned(RICH, RICH_WORKSHOP);
    const soda = (grams(plan, 'soda') * 0.99) / 39.99677;
    const potash = (grams(plan, 'potash') * 0.9) / 56.1053;
    expect(soda / (soda + potash)).toBeCloseTo(0.9, 6);
  });

  it('gives acid its own alkali: superfat stays what was asked', () => {
    const sour = planned(formula({ entries: [...formula().entries, entry('citric', 'acid', 'citric-anhydrous-acid', share('2'))] }));
    expect(sour.figures.superfat.working).toBeCloseTo(0.05, 12);
    expect(grams(sour, 'soda') - grams(planned(formula()), 'soda')).toBeCloseTo((20 * 0.62455) / 0.99, 2);
  });

  it('takes a third of superfat points or one part in a hundred for tolerance, whichever is less, and never less than the scale shows', () => {
    const plan = planned(formula());
    const line = (id: string, of = plan) => of.plan.lines.find((one) => one.id === id);
    expect(line('soda')?.tolerance).toBe(mg(Math.floor((0.003 / Math.abs(-(0.99 / 39.99677) / plan.figures.fatDemandMoles)) * 10) * 100));
    expect(line('water')?.tolerance).toBe(mg(Math.floor(grams(plan, 'water') * 0.01 * 10) * 100));
    const coarse = planned(
      formula(),
      workshop({ scales: WORKSHOP.scales.slice(0, 1).map((scale) => ({ ...scale, division: mg(2_000) })) }),
    );
    expect(line('soda', coarse)?.tolerance).toBe(mg(2_000));
    const service = coarse.lines.find(({ entry: id }) => id === 'soda');
    expect(service?.tolerance.by).toBe('scale');
    expect(service?.scale).toMatchObject({ serves: false, couldServe: [] });
    expect(coarse.warnings).toContainEqual(expect.objectContaining({ code: 'scale-cannot-serve', entry: 'soda' }));
  });

  it('gives a line the big scale cannot tell to the small one, and names it', () => {
    const entries = [...formula().entries, entry('char', 'extra', 'charcoal-powder', mass('2'))];
    const plan = planned(formula({ entries }));
    expect(plan.plan.lines.find(({ id }) => id === 'char')).toMatchObject({ scale: 'fine', tolerance: 40 });
    const alone = planned(formula({ entries }), workshop({ scales: WORKSHOP.scales.slice(0, 1) }));
    expect(alone.lines.find(({ entry: id }) => id === 'char')?.scale).toMatchObject({ serves: false, neededDivision: 48 });
  });

  it('keeps an upper that holds every limit of the formula', () => {
    const plan = planned(formula({ limits: { superfat: { low: '4', high: '6' }, lye: { low: '32', high: '34' } } }));
    const { fatDemandMoles: demand, alkaliMoles: supply } = plan.figures;
    const upper = (id: string) => (plan.plan.lines.find((line) => line.id === id)?.upper ?? Number.NaN) / 1000;
    const soda = supply + ((upper('soda') - grams(plan, 'soda')) * 0.99) / 39.99677;
    // Lye of 34 % or superfat of 4 %: the nearer of the two.
    expect(1 - soda / demand).toBeGreaterThanOrEqual(0.04 - 1e-5);
    const olive = demand + ((upper('olive') - 700) * 190) / 1000 / 56.1053;
    expect(1 - supply / olive).toBeCloseTo(0.06, 4);
    const lye = (grams(plan, 'soda') * 0.99) / (grams(plan, 'soda') + upper('water'));
    expect(lye).toBeCloseTo(0.32, 4);
  });

  it('carries oils over in parts when pot and oils are more than the scale bears', () => {
    const plan = planned(formula({ size: { kind: 'fats', value: '9000', unit: 'g' } }));
    const olive = plan.lines.find(({ entry: id }) => id === 'olive');
    const line = plan.plan.lines.find(({ id }) => id === 'olive');
    expect(line?.into).toBe('batch-pot');
    expect(olive?.pours.length).toBeGreaterThan(1);
    expect(olive?.pours.reduce((sum, one) => sum + one, 0)).toBe(line?.target);
  });

  it('takes no vessel that lye eats, and makes up one that is missing', () => {
    const tin = WORKSHOP.vessels.map((vessel) => (vessel.use === 'liquid' ? { ...vessel, material: 'aluminium' as const } : vessel));
    const plan = planned(formula(), workshop({ vessels: tin }));
    expect(plan.plan.vessels.some(({ material }) => material === 'aluminium')).toBe(false);
    expect(plan.plan.vessels.find(({ use }) => use === 'liquid')).toMatchObject({ material: 'unstated', empty: null, brimMl: null });
    expect(plan.warnings.map(({ code }) => code)).toEqual(expect.arrayContaining(['vessel-unknown', 'vessel-eaten']));
  });

  it('subtracts the water of a stock lye', () => {
    const stock = {
      id: 'stock',
      name: 'Stock lye',
      note: null,
      parts: [
        { material: 'sodium-hydroxide', lot: 'lot-soda-06', percent: '50' },
        { material: 'water', lot: null, percent: '50' },
      ],
    };
    const entries = withEntry('soda', { material: 'stock', lot: null });
    const plan = planned(formula({ entries }), workshop({ preparations: [stock] }));
    const dry = planned(formula());
    expect(grams(plan, 'soda')).toBeCloseTo(2 * grams(dry, 'soda'), 6);
    expect(grams(plan, 'water')).toBeCloseTo(grams(dry, 'water') - grams(dry, 'soda'), 6);
    expect(plan.figures.superfat.working).toBeCloseTo(0.05, 12);
  });

  it('weighs a masterbatch of fats as one line and reckons it as what it is made of', () => {
    const base = {
      id: 'base',
      name: 'Base',
      note: null,
      parts: [
        { material: 'coconut', lot: null, percent: '30' },
        { material: 'olive', lot: null, percent: '70' },
      ],
    };
    const twice = { id: 'twice', name: 'Base again', note: null, parts: [{ material: 'base', lot: null, percent: '100' }] };
    const entries = [entry('base', 'fat', 'twice', mass('1000')), WATER, SODA];
    const plan = planned(formula({ entries }), workshop({ preparations: [base, twice] }));
    expect(grams(plan, 'soda')).toBeCloseTo(grams(planned(formula()), 'soda'), 9);
    expect(plan.plan.basis?.values.filter(({ line }) => line === 'base').map(({ material }) => material)).toContain('coconut');
  });

  it('counts the oil a colour is dispersed in as fat', () => {
    const paste = {
      id: 'paste',
      name: 'Blue paste',
      note: null,
      parts: [
        { material: 'ultramarine-blue', lot: null, percent: '25' },
        { material: 'olive', lot: null, percent: '75' },
      ],
    };
    const entries = [...formula().entries, entry('blue', 'extra', 'paste', mass('40'))];
    const plan = planned(formula({ entries }), workshop({ preparations: [paste] }));
    expect(plan.figures.fatDemandMoles - planned(formula()).figures.fatDemandMoles).toBeCloseTo((30 * 190) / 1000 / 56.1053, 6);
    expect(plan.plan.lines.find(({ id }) => id === 'blue')?.material.class).toBe('colourant');
  });

  it('lets a lot’s certificate go before the catalogue, and says so', () => {
    const lots = WORKSHOP.lots.map((lot) =>
      lot.id === 'lot-coconut-09' && lot.certificate !== null ? { ...lot, certificate: { ...lot.certificate, sv: { value: '250' } } } : lot,
    );
    const plan = planned(formula({ entries: withEntry('coconut', { lot: 'lot-coconut-09' }) }), workshop({ lots }));
    expect(plan.figures.fatDemandMoles).toBeCloseTo((300 * 250 + 700 * 190) / 1000 / 56.1053, 6);
    const value = plan.plan.basis?.values.find(({ line, what }) => line === 'coconut' && what === 'saponification value');
    expect(value).toMatchObject({ value: '250', grade: 'certificate', lot: 'lot-coconut-09' });
    expect(plan.figures.superfat.u).toBeLessThan(planned(formula()).figures.superfat.u);
  });

  it('holds locks: a mass stays when scaled, a share when others make room', () => {
    const size = { kind: 'fats', value: '2000', unit: 'g' } as const;
    const kept = planned(formula({ size, entries: withEntry('coconut', { lock: 'mass' }) }));
    expect([grams(kept, 'coconut'), grams(kept, 'olive')]).toEqual([300, 1700]);
    const shared = planned(
      formula({
        size,
        entries: [...withEntry('coconut', { lock: 'share' }), entry('castor', 'fat', 'castor', mass('100'), { lock: 'mass' })],
      }),
    );
    expect(grams(shared, 'coconut')).toBeCloseTo((2000 * 300) / 1100, 6);
    expect(grams(shared, 'castor')).toBe(100);
  });

  it('puts what does not fit the mould before anything is weighed', () => {
    const over = planned(formula({ moulds: [{ mould: 'rounds', count: 1, fill: '95' }] }));
    expect(over.mayStart).toBe(false);
    expect(over.sizing?.moulds[0]).toMatchObject({ verdict: 'over' });
    expect(over.warnings[0]).toMatchObject({ code: 'mould-overfull', level: 'must' });
    const under = planned(formula({ moulds: [{ mould: 'slab', count: 1, fill: '95' }] }));
    expect(under.warnings).toContainEqual(expect.objectContaining({ code: 'mould-underfull' }));
    expect(under.sizing?.loafRule?.source).toContain('common practice, no source');
  });

  it('corrects the volume by the maker’s own batches, and shows it', () => {
    const plain = planned(formula());
    const learnt = planned(formula(), workshop({ calibration: { factor: '1.03', u: '0.004', batches: 7 } }));
    expect((learnt.sizing?.batter.value ?? 0) / (plain.sizing?.batter.value ?? 1)).toBeCloseTo(1.03, 9);
    expect(learnt.sizing?.calibration).toEqual({ factor: 1.03, batches: 7 });
    expect(learnt.sizing?.batter.u).toBeLessThan(plain.sizing?.batter.u ?? 0);
  });

  it('derives every figure of the sheet, each from the one before', () => {
    const { derivations, plan } = planned(RICH, RICH_WORKSHOP);
    const ids = new Set(derivations.map(({ id }) => id));
    for (const { id } of plan.lines) expect(ids.has(`line:${id}`), id).toBe(true);
    for (const id of [
      'superfat',
      'fat-demand',
      'acid-demand',
      'lye-concentration',
      'batter-volume',
      'to-pour',
      'mould:2',
      'mixing-peak',
      'fragrance-limit',
      'iodine',
    ])
      expect(ids.has(id), id).toBe(true);
    for (const one of derivations) {
      for (const input of one.inputs)
        expect(input.derivation === undefined || ids.has(input.derivation), `${one.id}: ${input.name}`).toBe(true);
      expect(
        one.inputs.every(({ source }) => source.length > 0),
        one.id,
      ).toBe(true);
    }
    const superfat = derivations.find(({ id }) => id === 'superfat');
    // Parts of less than half a hundredth are left out.
    expect(superfat?.parts.reduce((sum, part) => sum + part.share, 0)).toBeGreaterThan(0.97);
  });

  it('freezes what it was computed with', () => {
    const { plan } = planned(RICH, RICH_WORKSHOP);
    expect(plan.basis?.values.find(({ line, what }) => line === 'potash' && what === 'purity')).toMatchObject({
      value: '90',
      lot: 'lot-potash-01',
      grade: 'certificate',
    });
    expect(plan.basis?.asked.slice(0, 2).map(({ what, value }) => [what, value])).toEqual([
      ['superfat', '6'],
      ['lye concentration', '31'],
    ]);
    expect(plan.basis?.limits).toContainEqual({ what: 'share of fats: tallow', low: '22', high: '28', source: 'the formula' });
  });

  it('reads a decimal comma wherever a number is typed, as a point', () => {
    const [comma, point] = [planned(withMark(',')), planned(withMark('.'))];
    expect(comma.plan.lines).toEqual(point.plan.lines);
    expect(comma.plan.joining).toEqual(point.plan.joining);
    expect(comma.sizing).toEqual(point.sizing);
    expect(comma.figures.superfat.working).toBeCloseTo(0.055, 9);
  });

  it('a liquid that is all there is may be a rest or a share', () => {
    expect(grams(planned(formula({ entries: withEntry('water', { amount: share('100', 'liquid') }) })), 'water')).toBeCloseTo(
      grams(planned(formula()), 'water'),
      9,
    );
    expect(REST.kind).toBe('rest');
  });
});
