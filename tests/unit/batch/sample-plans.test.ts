import { describe, expect, it } from 'vitest';
import { SAMPLE_PLANS } from '#lib/work/formula/sample';

/**
 * Saponification values, mg KOH/g. Ranges of Codex CXS 210-1999 (as amended to 2022), tables 1 and 2: coconut 248–265, rapeseed of low
 * erucic acid 182–193, high-oleic sunflower 182–194. Codex CXS 33-1981, from memory: olive 184–196. Codex CXS 325R-2017, table 2: unrefined
 * shea 160–195. Merck Index: castor 176–187. The plans' working values lie inside them.
 */
const SV: Readonly<Record<string, { readonly low: number; readonly work: number; readonly high: number }>> = {
  coconut: { low: 248, work: 257, high: 265 },
  rapeseed: { low: 182, work: 188, high: 193 },
  sunflower: { low: 182, work: 188, high: 194 },
  olive: { low: 184, work: 190, high: 196 },
  shea: { low: 160, work: 185, high: 195 },
  castor: { low: 176, work: 181, high: 187 },
};
/** 39.99677 / 56.1053, from the molar masses (conventional atomic weights). */
const NAOH_PER_KOH = 0.71289;

describe.each(SAMPLE_PLANS.map((sample) => [sample.id, sample] as const))('the sample plan %s', (_id, { plan, lots }) => {
  const oils = plan.lines.filter(({ phase }) => phase === 'oils');
  const demand = oils.reduce((sum, line) => sum + line.target * ((SV[line.id]?.work ?? Number.NaN) / 1000) * NAOH_PER_KOH, 0);
  const soda = plan.lines.find(({ material }) => material.class === 'hydroxide')!;
  const water = plan.lines.find(({ phase }) => phase === 'liquid')!;
  const superfat = (alkali: number, fats = demand) => 100 * (1 - alkali / fats);

  it('has 5 % superfat, and a lye of one third', () => {
    expect(superfat(soda.target)).toBeCloseTo(5, 1);
    expect((100 * soda.target) / (soda.target + water.target)).toBeCloseTo(33.33, 1);
  });

  it('works with values inside the published ranges', () => {
    for (const { id } of oils) {
      const { low, work, high } = SV[id]!;
      expect(low <= work && work <= high).toBe(true);
    }
  });

  it('states for each line what a gram of it does to superfat, and allows 0.3 points or 1 %', () => {
    const effects = plan.lines.filter(({ superfatPerGram }) => superfatPerGram !== 0);
    expect(effects.length).toBe(oils.length + 1);
    for (const line of effects) {
      const naoh = (SV[line.id]?.work ?? 0) / 1000;
      const perGram = line.phase === 'oils' ? (0.95 * naoh * NAOH_PER_KOH * 100 * 1e6) / demand : (-100 * 1e6) / demand;
      expect(line.superfatPerGram).toBeCloseTo(perGram, -1);
      expect(line.tolerance).toBeLessThanOrEqual(line.target / 100);
      expect((line.tolerance / 1000) * Math.abs(perGram)).toBeLessThanOrEqual(350);
    }
  });

  it('keeps superfat between 4 and 6 % as long as one line alone stays below its upper', () => {
    for (const line of oils) {
      const more = ((line.upper ?? Number.NaN) - line.target) * ((SV[line.id]?.work ?? 0) / 1000) * NAOH_PER_KOH;
      expect(superfat(soda.target, demand + more)).toBeLessThanOrEqual(6.01);
    }
    expect(superfat(soda.upper ?? Number.NaN)).toBeGreaterThanOrEqual(3.99);
    for (const line of plan.lines) expect(line.upper === null || line.upper > line.target + line.tolerance).toBe(true);
  });

  it('orders the work: hard oils, liquid oils, what can wait, liquid, hydroxide', () => {
    const rank = ({ phase, material }: (typeof plan.lines)[number]) =>
      phase === 'oils' ? (material.class === 'hard-oil' ? 0 : 1) : phase === 'aside' ? 2 : phase === 'liquid' ? 3 : 4;
    const ranks = plan.lines.map(rank);
    expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
  });

  it('has a lot in stores for every line, and none chosen yet', () => {
    for (const { id, lot } of plan.lines) {
      expect(lot).toBeNull();
      expect(lots[id]?.length ?? 0).toBeGreaterThan(0);
    }
  });

  it('has vessels whose empty masses cannot be confused', () => {
    const masses = plan.vessels.flatMap(({ empty }) => (empty === null ? [] : [empty])).toSorted((a, b) => a - b);
    for (const [at, mass] of masses.entries()) if (at > 0) expect(mass - masses[at - 1]!).toBeGreaterThan(6_000);
  });
});
