import { describe, expect, it } from 'vitest';
import { mg } from '#lib/units/mass';
import { CATALOGUE } from '#lib/work/formula/index';
import { labelAllergens } from '#lib/work/label/allergens';
import { barsComposition, glycerinFormed } from '#lib/work/label/composition';
import { labelParts, type LabelWorkshop } from '#lib/work/label/from-mould';
import { ingredientList } from '#lib/work/label/ingredients';
import { lightestOf, massIn } from '#lib/work/label/mixtures';
import { lineId, started, type BatchRig } from '#tests/support/batch';
import { fill, nameAll, partOff, setDown, twoParts, weighLeft } from '#tests/support/pouring';

const shop: LabelWorkshop = {
  material: (id) => CATALOGUE.find((one) => one.id === id) ?? null,
  preparation: () => null,
  lot: () => null,
  names: (id) => ({ inci: id, saponifiedAs: null }),
};

/** Meadowsweet with a green half, joined and parted; its sunflower oil as planned, or poured over to so many grams and carried on. */
const parted = (sunflower?: number): BatchRig => {
  const rig = started(twoParts());
  if (sunflower !== undefined) {
    rig.weighAll('sunflower');
    rig.weigh('sunflower', sunflower);
    expect(rig.code('answer-over', { line: lineId('sunflower'), choice: 'carry-on', held: true })).toContain('over-answered');
  }
  rig.weighAll().makeLye();
  nameAll(rig);
  rig.join().must('stamp-trace', { mark: 'medium', note: '' });
  setDown(rig, 'part:green', 210_000);
  partOff(rig, 'green', 330);
  rig.weigh('chlorella');
  setDown(rig, 'mould:1', 350_000);
  setDown(rig, 'mould:2', 180_000);
  return rig;
};
const order = (rig: BatchRig, moulds: readonly number[]): readonly string[] => {
  const { parts } = labelParts(barsComposition(rig.now, moulds).materials, shop);
  return ingredientList(parts, { naming: 'as-added', finished: massIn(parts), bound: true, allergens: [] }).items.map(({ name }) => name);
};

describe('what bars are made of', () => {
  it('is what was weighed into their own mould', () => {
    const rig = parted();
    fill(rig, 1, 240, ['pot']);
    fill(rig, 2, 300, ['part:green']);
    expect(barsComposition(rig.now, [1])).toMatchObject({ from: 'mould', bound: null });
    expect(massIn(labelParts(barsComposition(rig.now, [1]).materials, shop).parts)).toBe(240_000);
    expect(massIn(labelParts(barsComposition(rig.now, [1, 2]).materials, shop).parts)).toBe(540_000);
    expect(order(rig, [1])).not.toContain('chlorella');
    expect(order(rig, [2]).at(-1)).toBe('chlorella');
  });

  it('is all that may be in it where a swirl’s shares are not known', () => {
    const rig = parted();
    fill(rig, 2, 500, ['pot', 'part:green']);
    const { from, materials } = barsComposition(rig.now, [2]);
    expect(from).toBe('bounds');
    expect(order(rig, [2])).toContain('chlorella');
    expect(materials.every(({ mass, high }) => mass === null || mass === high)).toBe(true);
    // Either half may be nearly all of it: held against the 500 g that were weighed, not against the sum of what may be in it.
    const { parts } = labelParts(materials, shop);
    expect(massIn(parts)).toBeGreaterThan(500_000);
    expect(lightestOf(parts, barsComposition(rig.now, [2]), 0.25)).toBe(375_000);
  });

  it('is the whole batch where its moulds were not weighed', () => {
    const rig = parted();
    expect(barsComposition(rig.now, [7]).from).toBe('batch');
    expect(order(rig, [7])[0]).toBe(order(rig, [1])[0]);
  });

  it('goes by what was poured, not by what was planned: an over-pour that moves up a place moves on the label', () => {
    const rig = parted();
    fill(rig, 1, 240, ['pot']);
    expect(order(rig, [1]).indexOf('sunflower')).toBeGreaterThan(order(rig, [1]).indexOf('water'));
    const over = parted(150);
    fill(over, 1, 240, ['pot']);
    expect(over.line('sunflower')).toMatchObject({ outcome: 'over', actual: 150_000 });
    expect(order(over, [1]).indexOf('sunflower')).toBeLessThan(order(over, [1]).indexOf('water'));
  });
});

/** The colour of the green half brings an allergen: 1.2 % of it. */
const bringing: LabelWorkshop = {
  ...shop,
  lot: (id) =>
    id === 'lot-green'
      ? {
          id,
          mark: 'CH 2',
          material: 'chlorella',
          files: [],
          certificate: { date: '2026-02-03', supplier: 's', allergens: [{ name: 'Linalool', percent: '1.2' }] },
        }
      : null,
};
/** Share of it in the bar that has most, not dried at all, and why the bars need not be alike. */
const told = (rig: BatchRig, moulds: readonly number[], cavities = 1) => {
  const { mixtures } = barsComposition(rig.now, moulds, cavities);
  const dried = mixtures.all.map((one) => {
    const { parts } = labelParts(one.materials, bringing);
    return { parts, finished: lightestOf(parts, one, 0) };
  });
  const [first] = labelAllergens(dried);
  return { share: first?.share ?? 0, declared: first?.declared ?? false, why: mixtures.why };
};
const inGreen = (rig: BatchRig): number => {
  const own = rig.line('chlorella').actual;
  return (0.012 * own) / (330_000 + own);
};

describe('allergens where bars of one lot need not be alike', () => {
  it('of a mould that nobody weighed are those of the strongest jug: unknown is not the mean', () => {
    const rig = parted();
    const [most, all] = [inGreen(rig), massIn(labelParts(barsComposition(rig.now, [1]).materials, shop).parts)];
    // In all of the batter it would stay below what a label names.
    expect((0.012 * rig.line('chlorella').actual) / all).toBeLessThan(1.1e-4);
    expect(told(rig, [1])).toEqual({ share: expect.closeTo(most, 7) as number, declared: true, why: ['jugs'] });
    expect(told(rig, [9])).toMatchObject({ share: expect.closeTo(most, 7) as number, why: ['jugs'] });
    expect(barsComposition(rig.now, [1]).from).toBe('bounds');
  });

  it('follow the weights where each mould got one jug, and take the stronger mould where one label is for both', () => {
    const rig = parted();
    fill(rig, 1, 240, ['pot']);
    fill(rig, 2, 300, ['part:green']);
    expect(told(rig, [1])).toEqual({ share: 0, declared: false, why: [] });
    expect(told(rig, [2])).toEqual({ share: expect.closeTo(inGreen(rig), 6) as number, declared: true, why: [] });
    expect(told(rig, [1, 2])).toEqual({ share: expect.closeTo(inGreen(rig), 6) as number, declared: true, why: ['moulds'] });
  });

  it('of cavities filled by turns are those of one jug alone, though the tray as a whole is known', () => {
    const rig = parted();
    fill(rig, 1, 100, ['pot']);
    fill(rig, 2, 330, ['pot', 'part:green']);
    weighLeft(rig, 'part:green', 100);
    weighLeft(rig, 'pot', 5);
    const log = told(rig, [2]);
    expect(log.why).toEqual([]);
    expect(log.share).toBeLessThan(0.9 * inGreen(rig));
    expect(told(rig, [2], 6)).toEqual({ share: expect.closeTo(inGreen(rig), 6) as number, declared: true, why: ['cavities'] });
  });

  it('of a part that was never weighed off may be in some bars only', () => {
    const rig = started(twoParts(true)).weighAll().makeLye();
    nameAll(rig);
    rig.join().must('stamp-trace', { mark: 'medium', note: '' });
    setDown(rig, 'mould:1', 350_000);
    fill(rig, 1, 240, ['pot']);
    const own = rig.line('chlorella').actual;
    const rest = massIn(labelParts(barsComposition(rig.now, [9]).materials, shop).parts) - own;
    expect(told(rig, [1])).toMatchObject({ share: expect.closeTo((0.012 * own) / (rest / 2 + own), 6) as number, why: ['part'] });
  });

  it('say of which scents nothing is known', () => {
    const scents = [
      { material: { id: 'lavender-oil', name: 'lavender', class: 'fragrance' as const }, lot: null, mass: mg(9), high: mg(9) },
      { material: { id: 'chlorella', name: 'chlorella', class: 'fragrance' as const }, lot: { id: 'lot-green' }, mass: mg(9), high: mg(9) },
    ];
    expect(labelParts(scents, { ...bringing, material: () => null }).silent).toEqual(['lavender-oil']);
  });
});

describe('glycerin', () => {
  it('is a molecule for three of hydroxide', () => {
    // 3 × 39.997 g of NaOH set 92.094 g free.
    expect(glycerinFormed([{ kind: 'NaOH', mass: mg(119_991) }]).mass / 1000).toBeCloseTo(92.09, 1);
    expect(glycerinFormed([{ kind: 'KOH', mass: mg(168_317) }]).mass / 1000).toBeCloseTo(92.09, 1);
  });
});
