import { describe, expect, it } from 'vitest';
import { mg } from '#lib/units/mass';
import type { Formula, PlanContext } from '#lib/work/formula/index';
import { codes, entry, formula, grams, mass, planned, share, withEntry, workshop, WORKSHOP } from '#tests/support/formula';
import { warningText } from '../../../app/formulas/messages-warnings';
import { RICH, RICH_WORKSHOP } from '#tests/support/rich-formula';

const lye = (percent: string): Formula['wishes'] => ({ superfat: '5', lye: { kind: 'concentration', percent } });
const with_ = (...more: readonly Parameters<typeof entry>[]): Formula =>
  formula({ entries: [...formula().entries, ...more.map((one) => entry(...one))] });
const vessels = (of: Partial<PlanContext['vessels'][number]>): PlanContext =>
  workshop({ vessels: WORKSHOP.vessels.map((vessel) => (vessel.use === 'liquid' ? { ...vessel, ...of } : vessel)) });

/** What a plain formula in a workshop that has all it needs says: nothing that asks for a decision but the scale. */
const PLAIN: ReadonlySet<string> = new Set(['scale-never-checked', 'false-trace', 'from-memory']);

describe('warnings', () => {
  it('a plain formula has few', () => {
    expect(codes(planned(formula())).filter((code) => !PLAIN.has(code))).toEqual([]);
  });

  it.each<[string, Formula, string, string]>([
    ['weak lye', formula({ wishes: lye('22') }), 'lye-strength-unusual', 'mind'],
    ['weak lye parts', formula({ wishes: lye('22') }), 'likely-to-separate', 'mind'],
    ['strong lye cracks', formula({ wishes: lye('39') }), 'likely-to-crack', 'mind'],
    ['superfat of 20 %', formula({ wishes: { ...lye('33'), superfat: '20' } }), 'superfat-high', 'mind'],
    ['superfat of 1 % may be lye-heavy', formula({ wishes: { ...lye('33'), superfat: '1' } }), 'lye-heavy-possible', 'mind'],
    ['limits below zero', formula({ limits: { superfat: { low: '-1', high: '6' }, lye: null } }), 'lye-heavy-possible', 'must'],
    [
      'own lye that is too much',
      formula({ entries: withEntry('soda', { amount: mass('170') }), wishes: { ...lye('33'), superfat: null } }),
      'lye-heavy',
      'must',
    ],
    ['NaOH above what heat is known of', formula({ wishes: lye('45') }), 'heat-unknown', 'mind'],
    ['hemp oil', formula({ entries: withEntry('olive', { material: 'hemp' }) }), 'early-rancidity', 'mind'],
    ['olive alone', formula({ entries: formula().entries.filter(({ id }) => id !== 'coconut') }), 'soft-at-unmoulding', 'note'],
    ['sugar', with_(['sugar', 'extra', 'sugar', share('4')]), 'likely-to-overheat', 'mind'],
    ['what looks alike', with_(['citric', 'acid', 'citric-anhydrous-acid', share('1')]), 'looks-alike', 'note'],
    ['much fragrance', with_(['lav', 'fragrance', 'lavender-oil', share('7')]), 'likely-to-separate', 'mind'],
    ['fragrance without a limit', with_(['lav', 'fragrance', 'lavender-oil', share('2')]), 'fragrance-limit-unknown', 'mind'],
    ['vanillin', with_(['m', 'fragrance', 'meadowsweet-scent', share('2')]), 'browning', 'note'],
    ['spoons', with_(['oat', 'extra', 'ground-oats', { kind: 'unweighed', text: '2 tbsp' }]), 'unweighed', 'mind'],
    ['milk', formula({ entries: withEntry('water', { material: 'goat-milk' }) }), 'milk-scorches', 'mind'],
  ])('%s', (_name, of, code, level) => {
    const found = planned(of).warnings.filter((one) => one.code === code);
    expect(found.map((one) => one.level)).toContain(level);
    for (const { because } of found) expect(because.text.length).toBeGreaterThan(5);
  });

  it('superfat below the usual width may be asked for: nobody set limits below zero, and a chance of lye is said', () => {
    for (const superfat of ['0', '0.5']) {
      const plan = planned(formula({ wishes: { ...lye('33'), superfat } }));
      expect(plan.mayStart, superfat).toBe(true);
      expect(plan.warnings.filter(({ code }) => code === 'lye-heavy-possible').map(({ level }) => level)).toEqual(['mind']);
      expect(plan.plan.basis?.limits.find(({ what }) => what === 'superfat')?.low).toBe('0');
    }
  });

  it('dry milk brings fat that takes hydroxide, and sugar that heats', () => {
    const plain = grams(planned(formula()), 'soda');
    const powdered = planned(with_(['p', 'extra', 'milk-powder', mass('100')]));
    // 26.7 g of fat at 226 mg/g and 1.2 g of lactic acid, over 56.1 and 90.1 g/mol, times 40.0: with 5 % of superfat.
    const more = 0.95 * ((26.7 * 0.226) / 56.1056) * 39.9971 + (1.2 / 90.08) * 39.9971;
    expect(grams(powdered, 'soda') - plain).toBeCloseTo(more / 0.99, 1);
    expect(codes(powdered)).toContain('likely-to-overheat');
    expect(codes(powdered)).not.toContain('milk-scorches');
    expect(codes(planned(with_(['h', 'extra', 'honey', mass('40')])))).toContain('likely-to-overheat');
  });

  it('a rule of the trade says that it is one', () => {
    const found = planned(formula({ wishes: lye('22') })).warnings.find(({ code }) => code === 'likely-to-separate');
    expect(found?.because.grade).toBe('common practice');
  });

  it('nothing of level must, and the batch may start; one, and it may not', () => {
    expect(planned(formula()).mayStart).toBe(true);
    expect(planned(formula({ limits: { superfat: { low: '-1', high: '6' }, lye: null } })).mayStart).toBe(false);
  });

  it('a lye of which the heat is not known says unknown, and everything else of the plan stands', () => {
    const { figures, mayStart, sizing, derivations } = planned(formula({ wishes: lye('45') }));
    expect(figures.mixingPeak).toBeNull();
    expect(derivations.map(({ id }) => id)).not.toContain('mixing-peak');
    expect(sizing).not.toBeNull();
    expect(mayStart).toBe(true);
  });

  it('locks a jug that the lye would be too hot for, asks about one nobody rated, says what is of glass', () => {
    expect(codes(planned(formula(), vessels({ rating: '80' })))).toContain('peak-over-rating');
    expect(planned(formula(), vessels({ rating: '80' })).mayStart).toBe(false);
    expect(codes(planned(formula(), vessels({ rating: null })))).toContain('rating-unknown');
    expect(codes(planned(formula(), vessels({ material: 'glass' })))).toContain('vessel-glass');
    expect(codes(planned(formula(), vessels({ rating: '130' })))).not.toContain('peak-over-rating');
  });

  it('says the upper figure that the jug is held against, and never one that the jug is made for', () => {
    const { figures } = planned(formula());
    const peak = figures.mixingPeak;
    if (peak === null) throw new Error('no peak');
    // Between what is most likely and what the jug is held against.
    const rating = (peak.value + peak.u).toFixed(1);
    const found = planned(formula(), vessels({ rating })).warnings.find(({ code }) => code === 'peak-over-rating');
    if (found === undefined) throw new Error('not said');
    expect(found.params['peak']).toBeCloseTo(peak.value, 1);
    expect(found.params['upper']).toBeGreaterThanOrEqual(peak.value + 2 * peak.u);
    expect(found.params['upper']).toBeGreaterThan(Number(rating));
    const text = warningText(found, { locale: 'en-GB', mass: 'g', temperature: 'C' });
    expect(text).toContain(`The lye can get ${peak.value.toFixed(1)} °C`);
    expect(text).toContain(`as hot as ${Number(found.params['upper']).toFixed(1)} °C (k = 2)`);
    expect(text).toContain(`made for ${rating} °C`);
  });

  it('lye that would set in a cold workshop', () => {
    expect(planned(formula({ wishes: lye('34') }), workshop({ room: '0' })).warnings).toContainEqual(
      expect.objectContaining({ code: 'crystallises', level: 'must' }),
    );
  });

  it('a blend over its certificates’ limits stops the batch; within, it says how much more it may be', () => {
    const lots = RICH_WORKSHOP.lots.map((lot) =>
      lot.id === 'lot-cedar-01' && lot.certificate !== null ? { ...lot, certificate: { ...lot.certificate, limit: '0.3' } } : lot,
    );
    const over = planned(RICH, { ...RICH_WORKSHOP, lots });
    expect(over.warnings[0]).toMatchObject({ code: 'over-fragrance-limit', level: 'must' });
    const within = planned(RICH, RICH_WORKSHOP).figures.fragrance;
    expect(within.verdict).toMatchObject({ kind: 'within' });
    // Linalool: 32 % of 1.25 % of the oils is far above 0.01 % of the bar.
    expect(within.allergens).toContainEqual(expect.objectContaining({ name: 'Linalool', declared: true }));
  });

  it('what an assessment does not allow stops the batch', () => {
    const references: Formula['references'] = [
      {
        kind: 'safety-assessment',
        number: 'A-17',
        date: '2026-01-01',
        ranges: [{ material: 'coconut', low: '10', high: '15' }],
        file: null,
      },
    ];
    const must = planned(formula({ references })).warnings.find(({ code }) => code === 'outside-reference');
    expect(must).toMatchObject({ level: 'must', entry: 'coconut', params: { material: 'Coconut oil', low: 10, high: 15 } });
    const wide = references.map((one) => ({ ...one, ranges: [{ material: 'coconut', low: '10', high: '40' }] }));
    expect(codes(planned(formula({ references: wide })))).not.toContain('outside-reference');
    // What is inside a masterbatch is of the batch as well: 300 g of coconut oil in some 1460 g of batter, both ways.
    const parts = [{ material: 'coconut', lot: null, percent: '100' }];
    const preparations = [{ id: 'melt', name: 'Melted ahead', note: null, parts }];
    const most = references.map((one) => ({ ...one, ranges: [{ material: 'coconut', low: '0', high: '15' }] }));
    const hidden = formula({ references: most, entries: withEntry('coconut', { material: 'melt' }) });
    expect(codes(planned(hidden, workshop({ preparations })))).toContain('outside-reference');
  });

  it('a scale that cannot bear what stands on it', () => {
    const scales = WORKSHOP.scales.map((scale) =>
      scale.role === 'main' ? { ...scale, capacity: mg(300_000) } : { ...scale, capacity: mg(200_000) },
    );
    expect(codes(planned(formula(), workshop({ scales })))).toContain('capacity-exceeded');
  });

  it('without any scale, weights are by hand', () => {
    expect(codes(planned(formula(), workshop({ scales: [] })))).toContain('no-scale');
  });
});
