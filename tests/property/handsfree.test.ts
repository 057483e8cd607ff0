import { describe, expect, it } from 'vitest';
import { marksOf } from '#tests/benchmark/calibration/marks';
import { runPart, type Part } from '#tests/benchmark/calibration/parts';
import { newTally, sum } from '#tests/benchmark/calibration/tally';

/** A small run of `npm run calibration:handsfree`. Busy machines take their time: the limit is for what never ends. */
const LONG = 600_000;

const PART: Part = { families: 'unseen', seed: 20_000, lines: 0, disturbance: null, pieces: false };

describe('hands-free acceptance on simulated lines', () => {
  it('takes no wrong weight on undisturbed lines, and does take weights', { timeout: LONG }, () => {
    const tally = sum([runPart({ ...PART, lines: 360 }), runPart({ ...PART, pieces: true, lines: 40 })]);
    expect(tally.lines).toBeGreaterThanOrEqual(400);
    expect(tally).toMatchObject({ wrong: 0, undetected: 0 });
    expect(tally.accepted / tally.lines).toBeGreaterThan(0.5);
    expect(tally.asked / tally.lines).toBeLessThan(0.15);
  });

  it('reports the wrong weights that a bench without doubts takes', { timeout: LONG }, () => {
    const dropped: Part = { ...PART, disturbance: 'object dropped in', lines: 60 };
    const guarded = runPart(dropped);
    const credulous = runPart({ ...dropped, credulous: true });
    expect(credulous.wrong).toBeGreaterThanOrEqual(5);
    expect(credulous.wrong).toBeGreaterThan(2 * guarded.wrong);
    const empty = newTally();
    const marks = marksOf({ clean: credulous, cleanPieces: empty, disturbed: credulous, disturbedPieces: empty, dropped: empty });
    expect(marks.find(({ name }) => name.startsWith('undisturbed: wrong'))?.verdict).toBe('not met');
    expect(marks.find(({ name }) => name === 'disturbed: wrong at accept')?.verdict).toBe('not met');
  });

  it('is the same for the same seed', { timeout: LONG }, () => {
    const part: Part = { ...PART, disturbance: 'leaning hand', lines: 10 };
    expect(runPart(part)).toEqual(runPart(part));
    expect(runPart({ ...part, seed: part.seed + 1000 })).not.toEqual(runPart(part));
  });
});
