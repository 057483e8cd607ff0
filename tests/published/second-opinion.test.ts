import { describe, expect, it } from 'vitest';
import { acidDemand, acidFacts, type AcidId } from '#lib/soap/acid';
import { chanceBelowZero, flat, normal, triangle } from '#lib/soap/doubt';
import { acidMolarMass, type FattyAcid } from '#lib/soap/fatty-acid';
import { M_GLYCEROL, M_IODINE, M_KOH, M_NAOH, M_WATER, molarMass, naohForKoh } from '#lib/soap/molar-mass';
import { spreadOf } from '#lib/soap/superfat-spread';
import { theoreticalSv, triglycerideMolarMass } from '#lib/soap/theory';
import { temperatureOfDecimal } from '#lib/units/parse';
import { NANOGRAMS_PER } from '#lib/units/mass';
import { massOfText } from '#lib/units/mass-text';
import { calibrationFrom, copyCard, planOf } from '#lib/work/formula/index';
import type { Amount, Fill, PlanAnswer } from '#lib/work/formula/index';
import { formula, withEntry, workshop } from '#tests/support/formula';
import { inUnit, molarMassOf, statistics } from '#tests/support/second-opinion';

/** Two tables of atomic weights: theirs are sums over isotopes, ours IUPAC's conventional values. */
const TABLES = 5e-5;
const close = (ours: number, theirs: number, relative: number, what: string): void =>
  expect(Math.abs(ours - theirs) / theirs, what).toBeLessThan(relative);

describe('molar masses, by a library that sums isotopes', () => {
  it.each([
    ['NaOH', M_NAOH],
    ['KOH', M_KOH],
    ['H2O', M_WATER],
    ['C3H8O3', M_GLYCEROL],
    ['I2', M_IODINE],
    ['NH3', molarMass({ N: 1, H: 3 })],
  ])('%s', (text, ours) => close(ours, molarMassOf(text), TABLES, text));

  it('soda for potash, by the ratio of both', () => {
    close(naohForKoh(1), molarMassOf('NaOH') / molarMassOf('KOH'), TABLES, 'NaOH/KOH');
  });

  const ACIDS: readonly (readonly [AcidId, string, number])[] = [
    ['citric-anhydrous', 'C6H8O7', 3],
    ['citric-monohydrate', 'C6H8O7(H2O)', 3],
    ['lactic', 'CH3CH(OH)COOH', 1],
    ['acetic', 'CH3COOH', 1],
    ['tartaric', 'C4H6O6', 2],
    ['malic', 'C4H6O5', 2],
    ['ascorbic', 'C6H8O6', 1],
  ];
  it.each(ACIDS)('%s, and the soda that a gram of it takes', (id, text, protons) => {
    close(molarMass(acidFacts(id).formula), molarMassOf(text), TABLES, id);
    close(acidDemand(id, 'NaOH'), (protons * molarMassOf('NaOH')) / molarMassOf(text), TABLES, id);
  });

  const FATTY: readonly (readonly [FattyAcid, string])[] = [
    ['4:0', 'C4H8O2'],
    ['12:0', 'CH3(CH2)10COOH'],
    ['14:0', 'CH3(CH2)12COOH'],
    ['16:0', 'CH3(CH2)14COOH'],
    ['16:1', 'C16H30O2'],
    ['18:0', 'CH3(CH2)16COOH'],
    ['18:1', 'C18H34O2'],
    ['18:2', 'C18H32O2'],
    ['18:3', 'C18H30O2'],
    ['18:1-OH', 'C18H34O3'],
    ['20:1', 'C20H38O2'],
    ['22:1', 'C22H42O2'],
    ['24:0', 'C24H48O2'],
  ];
  it.each(FATTY)('fatty acid %s, its triglyceride, and the saponification value of that', (acid, text) => {
    const theirs = molarMassOf(text);
    close(acidMolarMass(acid), theirs, TABLES, text);
    // Three acids, and a glycerol bound to them with three waters gone.
    const bound = 3 * theirs + molarMassOf('C3H8O3') - 3 * molarMassOf('H2O');
    close(triglycerideMolarMass(acidMolarMass(acid)), bound, TABLES, text);
    close(theoreticalSv({ [acid]: 100 }), (3000 * molarMassOf('KOH')) / bound, TABLES, text);
  });

  it('triolein written out as one molecule', () => {
    close(triglycerideMolarMass(acidMolarMass('18:1')), molarMassOf('C57H104O6'), TABLES, 'triolein');
  });
});

/** Grams of a liquid of known density that a fluid measure comes to. */
const gramsOf = (amount: Amount): number => {
  const answer: PlanAnswer = planOf(formula({ entries: withEntry('olive', { amount }) }), workshop());
  if (answer.kind === 'problems') throw new Error(JSON.stringify(answer.problems));
  return answer.lines.find(({ entry }) => entry === 'olive')?.grams ?? Number.NaN;
};
const volume = (unit: 'ml' | 'us-fl-oz' | 'imperial-fl-oz', value = '10'): Amount => ({ kind: 'volume', value, unit });

describe('units, by a library that knows no soap', () => {
  it.each(['mg', 'g', 'kg', 'oz', 'lb'] as const)('%s in grams', (unit) => {
    // The library's ounce is rounded in its ninth digit.
    close(Number(NANOGRAMS_PER[unit]) / 1e9, inUnit(`1 ${unit}`, 'g'), 2e-9, unit);
    expect(massOfText('7.35', unit)?.mass).toBe(Math.round(inUnit(`7.35 ${unit}`, 'mg')));
  });

  it.each(['-40', '32', '86', '122', '212'])('%s °F in °C', (text) => {
    expect(temperatureOfDecimal(text, 'F')).toBe(Math.round(1000 * inUnit(`${text} tempF`, 'tempC')));
  });

  it('fluid ounces, against millilitres of the same oil', () => {
    const one = gramsOf(volume('ml', '1000')) / 1000;
    close(gramsOf(volume('us-fl-oz')) / one, inUnit('10 floz', 'ml'), 1e-8, 'US fluid ounce');
    // The library has no imperial ounce; a gallon of 4.54609 L by definition (UK Weights and Measures Act 1985) has 160.
    expect(gramsOf(volume('imperial-fl-oz')) / one).toBeCloseTo((10 * 4546.09) / 160, 6);
  });

  it('the loaf rule: 0.40 oz of fat to the cubic inch', () => {
    const answer = planOf(formula({ moulds: [{ mould: 'short-loaf', count: 1, fill: '100' }] }), workshop());
    if (answer.kind === 'problems') throw new Error(JSON.stringify(answer.problems));
    const rule = answer.sizing?.loafRule;
    const each = inUnit('0.40 oz', 'g') / inUnit('1 in^3', 'cm^3');
    close(rule?.fats ?? Number.NaN, each * (rule?.volume ?? Number.NaN), 2e-9, 'loaf rule');
  });
});

describe('statistics, by a library of distributions', () => {
  it('the chance below zero of a sum of normals, of a flat and of a triangle', () => {
    for (const mean of [-2.5, -1, -0.2, 0, 0.7, 1.9, 3]) {
      const one = normal(mean, 1);
      const two = [0.6, 0.8].map((weight) => ({ weight, shape: one.shape }));
      expect(chanceBelowZero(mean, two)).toBeCloseTo(statistics.normal.cdf(0, mean, 1), 6);
    }
    const lone = triangle(-2, 0.5, 3);
    for (const at of [-1.5, -0.5, 0.5, 1, 2.4]) {
      const chance = chanceBelowZero(lone.mean - at, [{ weight: lone.u, shape: lone.shape }]);
      expect(Math.abs(chance - statistics.triangular.cdf(at, -2, 3, 0.5)), `at ${at}`).toBeLessThan(5e-4);
    }
  });

  it('the interval of 95 in 100 of a superfat whose doubts are normal in the supply', () => {
    const [demand, net, u] = [4, 3.8, 0.02];
    const { low, high, u: ours } = spreadOf({ demand, net }, [{ demand: 0, supply: u, shape: { kind: 'normal' }, ends: [-2, 2] }]);
    expect(ours).toBeCloseTo(u / demand, 12);
    // Found to 1e-5 of the chance, which is 1.7e-4 of the standard deviation there.
    const within = (2e-4 * u) / demand;
    expect(Math.abs(low - statistics.normal.inv(0.025, 0.05, u / demand))).toBeLessThan(within);
    expect(Math.abs(high - statistics.normal.inv(0.975, 0.05, u / demand))).toBeLessThan(within);
  });

  it('the standard uncertainty of a flat range is that of a uniform distribution', () => {
    const { mean, u } = flat(190, 6);
    const draws = Array.from({ length: 20_000 }, (_, k) => statistics.uniform.inv((k + 0.5) / 20_000, 184, 196));
    expect(mean).toBeCloseTo(statistics.mean(draws), 6);
    expect(u).toBeCloseTo(statistics.stdev(draws), 5);
  });

  it('mean and scatter of what a maker’s own batches say of the volume', () => {
    const factors = [0.985, 1.012, 0.998, 1.031];
    const fills = factors.map((factor, at): Fill => ({
      id: `batch-${at}`,
      mark: `B ${at}`,
      computed: { volume: '1000', grams: '1000' },
      residue: '0',
      pourLoss: '0',
      moulds: [{ mould: 'loaf', name: 'loaf', count: 1, brim: '2000', full: String(50 * factor), grams: null }],
    }));
    const said = calibrationFrom(fills);
    expect(Number(said?.factor)).toBeCloseTo(statistics.mean(factors), 9);
    const n = factors.length;
    // Their variance with one batch's prior doubt of 0.03 in it, for the next batch.
    const variance = statistics.stdev(factors) ** 2 + 0.03 ** 2 / n;
    expect(Number(said?.u)).toBeCloseTo(Math.sqrt(variance * (1 + 1 / n)), 9);
  });
});

describe('a card, from end to end with none of our own constants', () => {
  it('gives the superfat that masses, saponification values and molar masses of the library give', () => {
    const entries = withEntry('soda', { amount: { kind: 'mass', value: '5', unit: 'oz' }, lot: 'lot-soda-06' });
    const card = formula({ entries, wishes: { superfat: null, lye: null } });
    const dated = withEntry('water', { amount: { kind: 'mass', value: '10', unit: 'oz' } }, card.entries);
    const answer = copyCard({ ...card, entries: dated }, workshop());
    expect(answer.open).toEqual([]);
    const context = workshop();
    const purity = Number(context.lots.find(({ id }) => id === 'lot-soda-06')?.certificate?.purity?.value) / 100;
    const sv = (id: string): number => {
      const one = context.materials.findLast((material) => material.id === id);
      if (one?.kind !== 'fat') throw new Error(id);
      return Number(one.sv.value);
    };
    const demand = (300 * sv('coconut') + 700 * sv('olive')) / 1000 / molarMassOf('KOH');
    const supply = (inUnit('5 oz', 'g') * purity) / molarMassOf('NaOH');
    expect(answer.superfat?.working).toBeCloseTo(1 - supply / demand, 4);
  });
});
