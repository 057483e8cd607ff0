import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { random } from '#hardware/practice/world/random';
import { createScale } from '#hardware/practice/world/scale';
import type { Scale } from '#hardware/practice/world/scale';
import { OVER_BY, scaleModel, UNDER_BY, WORKSHOP_SCALES } from '#hardware/practice/world/scale-model';
import type { ScaleModel } from '#hardware/practice/world/scale-model';
import { STEP_MS } from '#hardware/practice/world/step';

const hold = (scale: Scale, force: number, ms: number): void => {
  for (let t = 0; t < ms; t += STEP_MS) scale.step(force);
};
/** A scale nobody walks past, so that a test waits for one thing only. */
const still = (model: ScaleModel): ScaleModel => ({ ...model, vibration: { everyMs: 1e12, amplitude: 0, ms: 1 } });
const sane = (model: ScaleModel, seed = 1): Scale => createScale(still(model), random(seed, 'scale'));

/** The greatest figure after a kilogram is put on a scale that settles so, without noise, drift, creep or filter. */
const peak = (settling: ScaleModel['settling']): number => {
  const model = { ...scaleModel(5_000_000, 100), noise: 0, drift: { limit: 0, tauMs: 1e9 }, creep: { share: 0, tauMs: 1e9 }, filterMs: 10 };
  const scale = sane({ ...model, settling, updateMs: STEP_MS });
  let most = 0;
  for (let t = 0; t < 5_000; t += STEP_MS) {
    scale.step(1_000_000);
    most = Math.max(most, scale.display().mass);
  }
  return most;
};

describe('the simulated scale', () => {
  it.each(['main', 'fine'] as const)('shows a settled load within a division and its noise of the truth: %s', (role) => {
    const model = WORKSHOP_SCALES[role];
    fc.assert(
      fc.property(fc.integer({ min: 0, max: model.capacity }), fc.integer({ min: 0, max: 1e6 }), (load, seed) => {
        const scale = sane(model, seed);
        hold(scale, load, 4_000);
        const { mass, motion, range } = scale.display();
        const creep = model.creep.share * load;
        expect(range).toBe('in');
        expect(motion).toBe('stable');
        expect(Math.abs(mass - load)).toBeLessThanOrEqual(model.division / 2 + 5 * model.noise + model.drift.limit + creep);
        expect(Math.abs(mass % model.division)).toBe(0);
      }),
      { numRuns: 60 },
    );
  });

  it('calls itself moving while a load settles, and stable only when the figure has arrived', () => {
    fc.assert(
      fc.property(fc.integer({ min: 500, max: 4_000_000 }), fc.integer({ min: 0, max: 1e6 }), (load, seed) => {
        const model = WORKSHOP_SCALES.main;
        const scale = sane(model, seed);
        hold(scale, 0, 3_000);
        expect(scale.display().motion).toBe('stable');
        // The scale needs its own delay to notice; after that a stable mark is a promise about the figure beside it.
        hold(scale, load, 200);
        for (let t = 0; t < 3_000; t += 100) {
          hold(scale, load, 100);
          const { mass, motion } = scale.display();
          if (motion === 'stable') expect(Math.abs(mass - load)).toBeLessThanOrEqual(2 * model.division + 1e-5 * load);
          if (t < 300) expect(motion).toBe('moving');
        }
        expect(scale.display().motion).toBe('stable');
      }),
      { numRuns: 60 },
    );
  });

  it('never calls a pour of three divisions a second or more stable', () => {
    fc.assert(
      fc.property(fc.integer({ min: 3, max: 1_000 }), fc.integer({ min: 0, max: 1e6 }), (divisions, seed) => {
        const model = WORKSHOP_SCALES.main;
        const scale = sane(model, seed);
        const perStep = (divisions * model.division * STEP_MS) / 1_000;
        let load = 0;
        for (let t = 0; t < 5_000; t += STEP_MS) {
          scale.step((load += perStep));
          if (t > 1_500) expect(scale.display().motion).toBe('moving');
        }
      }),
      { numRuns: 40 },
    );
  });

  it('says over above capacity and nine divisions, under below zero by twenty, and comes back', () => {
    const model = WORKSHOP_SCALES.main;
    const scale = sane(model);
    hold(scale, model.capacity + (OVER_BY - 2) * model.division, 4_000);
    expect(scale.display().range).toBe('in');
    hold(scale, model.capacity + (OVER_BY + 3) * model.division, 4_000);
    expect(scale.display().range).toBe('over');
    hold(scale, 0, 4_000);
    expect(scale.display().range).toBe('in');
    hold(scale, -(UNDER_BY + 2) * model.division, 4_000);
    expect(scale.display().range).toBe('under');
  });

  it('lets its zero wander, but never past the limit', () => {
    const model = { ...WORKSHOP_SCALES.main, drift: { limit: 40, tauMs: 5_000 } };
    const scale = sane(model);
    let furthest = 0;
    for (let t = 0; t < 300_000; t += STEP_MS) {
      scale.step(0);
      furthest = Math.max(furthest, Math.abs(scale.wandered));
    }
    expect(furthest).toBeGreaterThan(20);
    expect(furthest).toBeLessThanOrEqual(40);
  });

  it('creeps on under a load by the share its model states', () => {
    const model = { ...WORKSHOP_SCALES.main, drift: { limit: 0, tauMs: 1e9 }, noise: 0, creep: { share: 1e-3, tauMs: 10_000 } };
    const scale = sane(model);
    hold(scale, 1_000_000, 3_000);
    const early = scale.display().mass;
    hold(scale, 1_000_000, 60_000);
    expect(scale.display().mass).toBe(1_001_000);
    expect(early).toBeGreaterThan(1_000_000);
    expect(early).toBeLessThan(1_000_500);
  });

  it('overshoots a little with a damped swing, and not at all with one lag', () => {
    expect(peak({ order: 1, ms: 90 })).toBe(1_000_000);
    expect(peak({ order: 2, ms: 90, damping: 0.5 })).toBeGreaterThan(1_050_000);
  });

  it('shakes when someone walks by, says so, and is quiet again', () => {
    const scale = sane(WORKSHOP_SCALES.main);
    hold(scale, 500_000, 4_000);
    scale.shake(2_000, 800);
    let moved = false;
    for (let t = 0; t < 800; t += STEP_MS) {
      scale.step(500_000);
      moved ||= scale.display().motion === 'moving';
    }
    expect(moved).toBe(true);
    hold(scale, 500_000, 2_000);
    expect(scale.display().motion).toBe('stable');
  });

  it('jumps to zero by its own key with no descent, and ignores the key while moving', () => {
    const scale = sane(WORKSHOP_SCALES.main);
    hold(scale, 350_000, 200);
    expect(scale.pressZero()).toBe(false);
    hold(scale, 350_000, 4_000);
    expect(scale.display().mass).toBeGreaterThan(349_000);
    expect(scale.pressZero()).toBe(true);
    expect(Math.abs(scale.display().mass)).toBeLessThanOrEqual(100);
    hold(scale, 0, 4_000);
    expect(scale.display().range).toBe('under');
  });
});
