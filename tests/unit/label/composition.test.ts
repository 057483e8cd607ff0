import { describe, expect, it } from 'vitest';
import { mg } from '#lib/units/mass';
import { CATALOGUE } from '#lib/work/formula/index';
import { barsComposition, glycerinFormed, lightestOf, massIn } from '#lib/work/label/composition';
import { labelParts, type LabelWorkshop } from '#lib/work/label/from-mould';
import { ingredientList } from '#lib/work/label/ingredients';
import { lineId, started, type BatchRig } from '#tests/support/batch';
import { fill, nameAll, partOff, setDown, twoParts } from '#tests/support/pouring';

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
  return ingredientList(parts, { naming: 'as-added', finished: massIn(parts), bound: true }).items.map(({ name }) => name);
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

describe('glycerin', () => {
  it('is a molecule for three of hydroxide', () => {
    // 3 × 39.997 g of NaOH set 92.094 g free.
    expect(glycerinFormed([{ kind: 'NaOH', mass: mg(119_991) }]).mass / 1000).toBeCloseTo(92.09, 1);
    expect(glycerinFormed([{ kind: 'KOH', mass: mg(168_317) }]).mass / 1000).toBeCloseTo(92.09, 1);
  });
});
