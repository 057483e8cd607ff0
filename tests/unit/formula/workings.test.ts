import { describe, expect, it } from 'vitest';
import type { Derivation, Formula, PlanContext } from '#lib/work/formula/index';
import { worthOf } from '#tests/support/arithmetic';
import { entry, formula, mass, planned, REST, share, SODA, WATER, withEntry, workshop, WORKSHOP } from '#tests/support/formula';
import { RICH, RICH_WORKSHOP } from '#tests/support/rich-formula';

const workings = (of: Formula, context?: PlanContext): ReadonlyMap<string, Derivation> =>
  new Map(planned(of, context).derivations.map((one) => [one.id, one]));
const find = (all: ReadonlyMap<string, Derivation>, id: string): Derivation => {
  const one = all.get(id);
  if (one === undefined) throw new Error(`no workings of ${id}: ${[...all.keys()].join(' ')}`);
  return one;
};

/** Five oils of which one is locked by weight and one by share. */
const LOCKED = formula({
  entries: [
    entry('coconut', 'fat', 'coconut', mass('300'), { lock: 'mass' }),
    entry('olive', 'fat', 'olive', share('50')),
    entry('palm', 'fat', 'palm', share('20')),
    SODA,
    WATER,
  ],
  size: { kind: 'fats', value: '2000', unit: 'g' },
});

/** Digits of a filled-in formula are cut; a difference of two large numbers shows it most. */
const NEAR = 2e-3;

/** Says in words what cannot be done by a calculator: nothing stands to be reckoned. */
const PLAIN = (one: Derivation): boolean =>
  /^(?:tolerance|brim|loaf-rule)\b/.test(one.id) || one.formula === 'm, as given' || one.filled === '';

describe.each<[string, Formula, PlanContext | undefined]>([
  ['five oils, two alkalis, a milk, an acid and a blend', RICH, RICH_WORKSHOP],
  ['locked oils', LOCKED, undefined],
  [
    'weights scaled to the moulds',
    formula({ size: { kind: 'moulds' }, moulds: [{ mould: 'short-loaf', count: 2, fill: '90' }] }),
    undefined,
  ],
  ['the plain one by its weights', formula(), workshop({ losses: { residue: null, pour: null }, room: null, pace: null })],
])('the workings of %s', (_name, of, context) => {
  const all = workings(of, context);

  it('each comes to its own figure when reckoned through', () => {
    let reckoned = 0;
    for (const one of all.values()) {
      if (PLAIN(one)) continue;
      const worth = worthOf(one.filled);
      const wanted = one.unit === '%' && Math.abs(worth) < 1.5 ? one.value / 100 : one.value;
      expect(Math.abs(worth - wanted), `${one.id}: ${one.filled}`).toBeLessThanOrEqual(NEAR * Math.max(Math.abs(wanted), 0.01));
      reckoned += 1;
    }
    expect(reckoned).toBeGreaterThan(20);
  });

  it('no input is the result itself, each has a number and a source, and leads to workings that are there', () => {
    for (const one of all.values()) {
      for (const input of one.inputs) {
        const at = `${one.id}: ${input.name}`;
        expect(Number.isFinite(input.value), at).toBe(true);
        expect(input.source.length, at).toBeGreaterThan(0);
        if (input.derivation !== undefined) expect(all.has(input.derivation), at).toBe(true);
        expect(input.derivation, at).not.toBe(one.id);
      }
      expect(one.inputs.length, one.id).toBeGreaterThan(0);
      for (const { share: part } of one.parts) expect(part, one.id).toBeGreaterThanOrEqual(0.005);
    }
  });
});

describe('what workings say', () => {
  it('an oil beside locked ones by what these leave', () => {
    const all = workings(LOCKED);
    expect(find(all, 'line:olive').filled).toContain('(2000 − 300) g × 50');
    expect(find(all, 'line:coconut').formula).toBe('m, as given');
  });

  it('an oil’s working value by its one source and why it is that, a certificate’s by its lot', () => {
    const all = workings(RICH, RICH_WORKSHOP);
    expect(find(all, 'sv:tallow')).toMatchObject({ value: 196, inputs: [{ value: 196, low: 190, high: 202 }] });
    expect(find(all, 'sv:tallow').formula).toMatch(/^working value: .+/);
    expect(find(all, 'sv:coconut')).toMatchObject({
      value: 256,
      formula: 'working value: as the certificate of lot CO 26-09 states it',
      inputs: [{ grade: 'certificate' }],
    });
  });

  it('the share of a blend, the most fragrance there may be, and the water of every line', () => {
    const all = workings(RICH, RICH_WORKSHOP);
    const { figures, lines } = planned(RICH, RICH_WORKSHOP);
    const grams = (ids: readonly string[]): number => lines.reduce((sum, one) => sum + (ids.includes(one.entry) ? one.grams : 0), 0);
    const blend = grams(['lavender', 'rosemary', 'cedar']);
    expect(find(all, 'blend-share:hedge').value).toBeCloseTo((100 * blend) / figures.batter, 9);
    const { verdict } = figures.fragrance;
    expect(find(all, 'fragrance-most').value).toBeCloseTo(blend / (verdict.kind === 'not-known' ? Number.NaN : verdict.sum), 9);
    const water = find(all, 'water-before');
    expect(water.inputs.reduce((sum, { value }) => sum + value, 0)).toBeCloseTo(figures.waterBefore, 9);
    // Potash brings its own, citric acid its crystal water.
    expect(water.inputs.map(({ derivation }) => derivation)).toEqual(
      expect.arrayContaining(['line:potash', 'line:milk', 'line:water', 'line:citric']),
    );
  });

  it('an acid by its strength and what a gram of it takes', () => {
    const acid = find(workings(RICH, RICH_WORKSHOP), 'acid-demand');
    const takes = acid.inputs.filter(({ unit }) => unit === 'mol/g').map(({ value }) => value);
    // Citric acid monohydrate, three protons to 210.14 g; the lactic acid of the milk, one to 90.08 g: by IUPAC's atomic weights.
    expect(takes).toEqual([expect.closeTo(1 / 90.08, 5), expect.closeTo(3 / 210.14, 5)]);
    expect(acid.inputs.map(({ name }) => name)).toContain('strength of Citric acid, monohydrate');
    expect(workings(formula()).has('acid-demand')).toBe(false);
  });

  it('what nobody said is not called typed', () => {
    const bare = workings(
      formula({ moulds: [{ mould: 'slab', count: 1, fill: '90' }] }),
      workshop({ losses: { residue: null, pour: null }, room: null }),
    );
    const grades = (id: string, name: string) => find(bare, id).inputs.find((input) => input.name === name);
    expect(grades('batter-volume', 'pouring temperature')).toMatchObject({
      grade: 'common practice',
      source: 'nobody said: the middle of the window',
    });
    expect(grades('to-pour', 'stays in the pot')).toMatchObject({ grade: 'common practice', value: 0 });
    expect(grades('mixing-peak', 'the room')).toMatchObject({ grade: 'common practice' });
    const said = workings(formula({ moulds: [{ mould: 'slab', count: 1, fill: '90' }] }));
    expect(find(said, 'to-pour').inputs.find(({ name }) => name === 'stays in the pot')).toMatchObject({ grade: 'typed', value: 25 });
  });

  it('lye concentration is known as well as purity and scales are', () => {
    const { u, parts } = find(workings(formula()), 'lye-concentration');
    // 0.2 % of 99 %, on a lye of 33 %: 0.067 points; the scale of 0.1 g adds less.
    expect(u).toBeGreaterThan(0.066);
    expect(u).toBeLessThan(0.08);
    expect(parts[0]?.what).toBe('purity of Sodium hydroxide');
    // Without the certificate's uncertainty a label is worth half a point.
    const label = WORKSHOP.lots.map((lot) =>
      lot.id === 'lot-soda-06' && lot.certificate !== null ? { ...lot, certificate: { ...lot.certificate, purity: { value: '99' } } } : lot,
    );
    expect(find(workings(formula(), workshop({ lots: label })), 'lye-concentration').u).toBeGreaterThan(0.15);
  });

  it('two rows of one mould are two, each with its own figures', () => {
    const moulds = [
      { mould: 'short-loaf', count: 1, fill: '95' },
      { mould: 'short-loaf', count: 2, fill: '50' },
    ];
    const plan = planned(formula({ size: { kind: 'moulds' }, moulds }));
    const all = new Map(plan.derivations.map((one) => [one.id, one.value]));
    expect(all.get('mould:0')).toBeCloseTo(95, 6);
    expect(all.get('mould:1')).toBeCloseTo(50, 6);
  });

  it('the trade’s rule stands beside loaves among other moulds, as full as wished', () => {
    const moulds = [
      { mould: 'short-loaf', count: 1, fill: '50' },
      { mould: 'leaf', count: 1, fill: '90' },
    ];
    const rule = planned(formula({ size: { kind: 'moulds' }, moulds })).sizing?.loafRule;
    // 250 × 64 × 95 mm, half full, at 0.40 oz to the cubic inch (common practice, no source).
    expect(rule?.fats).toBeCloseTo(760 * 0.692, 0);
    expect(planned(formula({ moulds: [{ mould: 'leaf', count: 1, fill: '90' }] })).sizing?.loafRule).toBeNull();
  });

  it('a blend has its own weight and its own part of what the certificates allow', () => {
    const all = workings(RICH, RICH_WORKSHOP);
    expect(find(all, 'blend-limit:hedge').value).toBeCloseTo(find(all, 'fragrance-limit').value, 9);
    expect(find(all, 'blend:hedge').value / find(all, 'fats').value).toBeCloseTo(0.025, 9);
    expect(find(all, 'allergen:Linalool').inputs.map(({ source }) => source)).toContain('Fellside Supplies, certificate of 2026-01-30');
    expect(REST.kind).toBe('rest');
  });

  it('what an oil takes is its whole demand as NaOH', () => {
    const all = workings(formula({ entries: withEntry('olive', { amount: mass('700') }) }));
    // 300 g of coconut oil at 257 mg/g, over 56.1056, times 39.9971 (Codex CXS 210, IUPAC atomic weights).
    expect(find(all, 'takes:coconut').value).toBeCloseTo(
      (300 * Number(find(all, 'takes:coconut').inputs[1]?.value) * 39.9971) / 56.1056 / 1000,
      3,
    );
  });
});
