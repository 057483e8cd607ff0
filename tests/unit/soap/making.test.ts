import { describe, expect, it } from 'vitest';
import { comparePeak, makingPeak, startUnder } from '#lib/soap/lye/making';
import { mixingPeak } from '#lib/soap/lye/mixing-peak';
import { vesselHeat } from '#lib/soap/heat/vessel';

/** A kilogram of lye of a third. */
const LYE = { naoh: 333, koh: 0, water: 667 };
const steel = vesselHeat('stainless');
const jug = steel === null ? null : { grams: 600, perGram: steel };

describe('how hot lye gets', () => {
  it('is the adiabatic peak where nothing is warmed along', () => {
    const { likely, atMost } = makingPeak(LYE, 20);
    expect(likely.value).toBeCloseTo(mixingPeak(LYE, 20).value, 9);
    expect(atMost.value).toBe(mixingPeak(LYE, 20).value);
  });

  it('is lowered by a jug as its heat capacity says, and the bound is not', () => {
    const { likely, atMost } = makingPeak({ ...LYE, jug }, 20);
    // A kilogram of lye takes 3.5 kJ/K, the jug 0.3: 86 K of rise become 86 · 3.5/3.8.
    const bare = atMost.value - 20;
    expect(likely.value - 20).toBeCloseTo((bare * 3.5) / 3.8, 0);
    expect(atMost.value).toBe(mixingPeak(LYE, 20).value);
    expect(vesselHeat('aluminium')).toBeNull();
    expect(vesselHeat('constructor')).toBeNull();
  });

  it('is lowered by ice, more by colder ice, and by what a milk holds', () => {
    const plain = makingPeak(LYE, 0).likely.value;
    const frozen = makingPeak({ ...LYE, frozen: 667 }, 0).likely.value;
    const freezer = makingPeak({ ...LYE, frozen: 667, iceCelsius: -18 }, 0).likely.value;
    expect(plain - frozen).toBeCloseTo((667 * 333.55) / 3500, -1);
    expect(frozen - freezer).toBeCloseTo((667 * 2.1 * 18) / 3500, 0);
    expect(makingPeak({ ...LYE, fat: 28, solids: 60 }, 20).likely.value).toBeLessThan(makingPeak(LYE, 20).likely.value);
  });

  it('never falls below its ice', () => {
    expect(makingPeak({ naoh: 5, koh: 0, water: 995, frozen: 995 }, 0).likely.value).toBe(0);
  });
});

describe('how to start so as to stay under a ceiling', () => {
  it('says nothing is needed, how cold, how much frozen, or in portions', () => {
    const weak = { naoh: 50, koh: 0, water: 950 };
    expect(startUnder(weak, 20, 60).kind).toBe('as-it-is');
    const cold = startUnder({ ...LYE, jug }, 20, 92);
    expect(cold.kind).toBe('cold');
    if (cold.kind === 'cold') expect(cold.celsius).toBeGreaterThan(0);
    // Two fifths free more heat than all the water takes up as ice and to 25 °C.
    expect(startUnder({ naoh: 400, koh: 0, water: 600 }, 5, 25)).toMatchObject({ kind: 'in-portions' });
    expect(startUnder({ ...LYE, iceCelsius: -18, jug, fat: 28, solids: 60 }, 5, 40)).toMatchObject({ kind: 'frozen' });
  });

  it('keeps the ceiling with its doubt, and by no more than one step', () => {
    for (const ceiling of [60, 75, 85, 95]) {
      const advice = startUnder({ ...LYE, jug }, 22, ceiling);
      expect(advice.peak.value + 2 * advice.peak.u).toBeLessThanOrEqual(ceiling);
      if (advice.kind !== 'cold') continue;
      const warmer = makingPeak({ ...LYE, jug }, advice.celsius + 1).likely;
      expect(warmer.value + 2 * warmer.u).toBeGreaterThan(ceiling);
    }
  });
});

describe('what then happened', () => {
  const foretold = makingPeak({ ...LYE, jug }, 20);

  it('is as foretold, below it, or above what the masses allow', () => {
    expect(comparePeak(foretold, 20, foretold.likely.value - 2)).toMatchObject({ verdict: 'as-foretold', apart: expect.closeTo(-2, 6) });
    const below = comparePeak(foretold, 20, 70);
    expect(below.verdict).toBe('below');
    expect(below.reached).toBeCloseTo(50 / (foretold.likely.value - 20), 6);
    expect(comparePeak(foretold, 20, foretold.atMost.value + 20).verdict).toBe('above');
  });
});
