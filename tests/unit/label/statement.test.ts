import { describe, expect, it } from 'vitest';
import { mg } from '#lib/units/mass';
import { customaryHeight, metricHeight, netStatement } from '#lib/work/label/net-statement';
import { euChecklist, usChecklist, type LabelFacts } from '#lib/work/label/checklist';
import { labelSettingsSchema, NO_LABEL_SETTINGS } from '#lib/work/label/settings';

describe('a net content', () => {
  it.each([
    [125_000, '125 g', '4.4 oz'],
    [100_000, '100 g', '3.52 oz'],
    [28_350, '28.35 g', '1 oz'],
    [453_592, '453.59 g', '15.99 oz'],
    [500_000, '500 g', '17.63 oz (1 lb 1.63 oz)'],
    [1_000_000, '1 kg', '35.27 oz (2 lb 3.27 oz)'],
  ])('of %d mg is never told as more than it is', (milligrams, metric, customary) => {
    expect(netStatement(mg(milligrams))).toEqual({ metric, customary });
  });

  it('has letters as high as its weight and its front ask for', () => {
    expect([50, 50.001, 200, 201, 1000, 1001].map((grams) => metricHeight(mg(Math.round(grams * 1000))).value)).toEqual([2, 3, 3, 4, 4, 6]);
    const square = 25.4 ** 2;
    expect([5, 5.1, 25, 26, 100, 101, 400, 401].map((inches) => customaryHeight(inches * square).value / 25.4)).toEqual(
      [1 / 16, 1 / 8, 1 / 8, 3 / 16, 3 / 16, 1 / 4, 1 / 4, 1 / 2].map((one) => expect.closeTo(one, 9) as number),
    );
    expect(() => netStatement(mg(0))).toThrow(RangeError);
  });
});

const facts = (more: Partial<LabelFacts['settings']> = {}): LabelFacts => ({
  settings: { ...NO_LABEL_SETTINGS, ...more },
  list: { items: [{ name: 'Aqua', mass: mg(1), share: 1, group: 'main', materials: ['water'] }], unnamed: [], leftOut: [] },
  silent: false,
  mark: '26-11/1',
  net: true,
  netGrams: 120,
});
const stateOf = (all: ReturnType<typeof euChecklist>, what: string) => all.find((one) => one.what === what)?.state;

describe('what a label must say', () => {
  it('is missing until somebody has typed it', () => {
    const all = euChecklist(facts());
    expect(stateOf(all, 'responsible')).toBe('missing');
    expect(stateOf(all, 'durability')).toBe('missing');
    expect(stateOf(all, 'batch')).toBe('there');
    const typed = euChecklist(facts({ responsible: { name: 'N', address: 'A' }, durability: { kind: 'opened', months: 12 } }));
    expect(stateOf(typed, 'responsible')).toBe('there');
    expect(stateOf(typed, 'durability')).toBe('look');
    expect(stateOf(euChecklist(facts({ durability: { kind: 'best-before', months: 18 } })), 'durability')).toBe('there');
    expect(stateOf(euChecklist({ ...facts(), list: { ...facts().list, unnamed: ['olive'] } }), 'ingredients')).toBe('missing');
    expect(stateOf(euChecklist({ ...facts(), silent: true }), 'ingredients')).toBe('look');
    expect(stateOf(euChecklist({ ...facts(), mark: '' }), 'batch')).toBe('missing');
    expect(all.map(({ source }) => source.text).every((text) => /Art\. 19\(1\)\([a-g]\)/.test(text))).toBe(true);
  });

  it('in the United States depends on whether it is sold as soap only', () => {
    const of = (onlySoap: boolean | null) => stateOf(usChecklist(facts({ onlySoap })), 'us-ingredients');
    expect([of(null), of(true), of(false)]).toEqual(['there', 'not-asked', 'there']);
    expect(stateOf(usChecklist(facts()), 'soap-exemption')).toBe('look');
  });

  it('is kept as a document of the workshop', () => {
    expect(labelSettingsSchema.safeParse(NO_LABEL_SETTINGS).success).toBe(true);
    expect(labelSettingsSchema.safeParse({ ...NO_LABEL_SETTINGS, size: { width: 5, height: 60 } }).success).toBe(false);
  });
});
