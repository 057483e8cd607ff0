import { describe, expect, it } from 'vitest';
import { ACID_IDS, acidFacts } from '#lib/soap/acid';
import { fatById, FATS, isHard, portionOf, usualIodine, usualProfile } from '#lib/soap/fats/index';
import { checkFractions, LIQUIDS } from '#lib/soap/liquid';
import { sourceLine } from '#lib/soap/source';
import { theoreticalSv, withUnsaponifiables } from '#lib/soap/theory';

const scorches = (id: string): boolean | undefined => LIQUIDS.find((l) => l.id === id)?.scorches;

describe('the catalogue of fats', () => {
  it('holds at least forty, each by one id and one name', () => {
    expect(FATS.length).toBeGreaterThanOrEqual(40);
    expect(new Set(FATS.map(({ id }) => id)).size).toBe(FATS.length);
    expect(new Set(FATS.map(({ name }) => name)).size).toBe(FATS.length);
  });

  it.each(FATS.map((fat) => [fat.id, fat] as const))('%s: every figure has a source, and the working value a reason', (_, fat) => {
    expect(fat.sv.low).toBeLessThanOrEqual(fat.working.value);
    expect(fat.sv.high).toBeGreaterThanOrEqual(fat.working.value);
    expect(fat.working.reason.length).toBeGreaterThan(10);
    for (const known of [fat.sv, fat.iodine, fat.unsaponifiable, fat.acidValue, fat.fattyAcids, fat.density, fat.melting]) {
      if (known !== null) expect(known.source.text.length).toBeGreaterThan(4);
    }
    expect(fat.density.value).toBeGreaterThan(0.8);
    expect(fat.density.value).toBeLessThan(0.98);
    // A density of the melted fat is known above where it melts.
    if (fat.melting !== null) expect(fat.density.celsius).toBeGreaterThanOrEqual(fat.melting.low);
    // Only waxes, whose acids are not those of triglycerides, go without a profile.
    expect(fat.fattyAcids === null).toBe(fat.kind === 'wax');
  });

  /** Fats whose usual acids and whose standard do not meet, and why; the catalogue says so to the maker. */
  const APART = new Map([
    ['babassu', 'the middles of its ranges are no babassu'],
    ['shea', 'up to a fifth takes no alkali'],
  ]);

  it.each(
    FATS.flatMap((fat) => {
      const profile = usualProfile(fat);
      return profile === null || APART.has(fat.id) ? [] : [[fat.id, fat, profile] as const];
    }),
  )('%s: the working value is what its usual acids come to, within 2.6 %%', (_, fat, profile) => {
    const theory = theoreticalSv(profile, fat.kind === 'free-acid' ? 'free-acid' : 'triglyceride');
    const corrected = withUnsaponifiables(theory, (fat.unsaponifiable?.value ?? 0) / 2);
    expect(Math.abs(corrected / fat.working.value - 1)).toBeLessThan(0.026);
  });

  it.each(
    FATS.flatMap((fat) =>
      fat.iodine === null || fat.kind === 'wax' || ['babassu', 'shea-refined'].includes(fat.id) ? [] : [[fat.id, fat.iodine, fat] as const],
    ),
  )('%s: its usual acids come to an iodine value inside the range', (_, { low, high }, fat) => {
    const iodine = usualIodine(fat) ?? Number.NaN;
    expect(iodine).toBeGreaterThanOrEqual(low);
    expect(iodine).toBeLessThanOrEqual(high);
  });

  it('says "from memory" where no standard gives the value', () => {
    expect(sourceLine(fatById('hemp').sv.source)).toMatch(/^from memory: /);
    expect(sourceLine(fatById('coconut').sv.source)).toMatch(/^Codex CXS 210/);
    expect(sourceLine({ text: 'a rule', grade: 'practice' })).toBe('common practice, no source: a rule');
    expect(sourceLine({ text: 'a sum', grade: 'computed' })).toBe('computed: a sum');
  });

  it('does not take the middle of a range that is wider than the acids allow', () => {
    expect(fatById('almond').working.value).toBeLessThan(192.3);
    expect(fatById('almond').note).toMatch(/wider/);
  });

  it('knows hard from liquid, and a wax from a fat', () => {
    expect(['coconut', 'palm', 'shea', 'cocoa', 'beeswax', 'lard'].every((id) => isHard(fatById(id)))).toBe(true);
    expect(['olive', 'castor', 'jojoba', 'sunflower'].some((id) => isHard(fatById(id)))).toBe(false);
    expect(portionOf(fatById('jojoba'), 10)).toEqual({ mass: 10, sv: 92.2, kind: 'wax', unsaponifiable: 0.5 });
    expect(portionOf(fatById('beeswax'), 10)).toMatchObject({ kind: 'wax', acidValue: 20.5 });
    expect(portionOf(fatById('olive'), 10)).toMatchObject({ sv: 190, unsaponifiable: 0.0075 });
    expect(usualIodine(fatById('jojoba'))).toBeCloseTo(82.5, 9);
    expect(usualIodine(fatById('carnauba'))).toBeNull();
    expect(() => fatById('moon')).toThrow(/no fat "moon"/);
  });
});

describe('liquids and acids', () => {
  it.each(LIQUIDS.map((liquid) => [liquid.id, liquid] as const))('%s: its parts fit into the whole', (_, liquid) => {
    expect(() => checkFractions(liquid.fractions)).not.toThrow();
    const { water, fat, sugar, acid } = liquid.fractions;
    // What is left is protein and minerals: little of a drink, a third and more of dry milk.
    expect(water + fat + sugar + acid).toBeGreaterThan(water > 0.5 ? 0.92 : 0.55);
    if (fat > 0) expect(liquid.fatSv).toBeGreaterThan(150);
  });

  it('milks scorch, tea and water do not', () => {
    expect([scorches('goat-milk'), scorches('cream'), scorches('beer')]).toEqual([true, true, true]);
    expect([scorches('water'), scorches('herb-tea'), scorches('cider-vinegar')]).toEqual([false, false, false]);
  });

  it('acids are named', () => {
    expect(ACID_IDS.map((id) => acidFacts(id).name)).toContain('citric acid, monohydrate');
  });
});
