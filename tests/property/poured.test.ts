import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { asPoured } from '#lib/work/batch/poured/index';
import { review } from '#lib/work/batch/review';
import { lyeVerdict } from '#lib/work/batch/poured/as-poured';
import { started } from '#tests/support/batch';
import { progress, restart, turn, wantOf } from '#tests/support/batch-acts';
import { formula, planned } from '#tests/support/formula';
import { RICH, RICH_WORKSHOP } from '#tests/support/rich-formula';

const PLANS = [
  planned(formula({ moulds: [{ mould: 'short-loaf', count: 1, fill: '90' }] })).plan,
  planned(RICH, RICH_WORKSHOP).plan,
] as const;

const numbersIn = (value: unknown): readonly number[] => {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
};

describe('any story of a computed batch', () => {
  it('is worked out or says why not, its parts add up, and what is kept of it is whole', () => {
    fc.assert(
      fc.property(fc.constantFrom(...PLANS), fc.array(turn, { minLength: 5, maxLength: 50 }), (plan, turns) => {
        const rig = started(plan);
        for (const one of turns) {
          if (one.turn === 'restart') restart(rig);
          else if (one.turn === 'progress') progress(rig);
          else {
            const [kind, body, head] = wantOf(rig, one.act);
            rig.send(kind, body, head);
          }
        }
        const answer = asPoured(rig.now);
        if (answer.kind !== 'figures') {
          expect(answer.kind).toBe('unknown-line');
          return;
        }
        expect(numbersIn([answer.superfat, answer.lye, answer.full, answer.shares]).every(Number.isFinite)).toBe(true);
        const { superfat } = answer;
        if (superfat !== null) {
          expect(superfat.low).toBeLessThanOrEqual(superfat.value + 1e-9);
          expect(superfat.high).toBeGreaterThanOrEqual(superfat.value - 1e-9);
          if (superfat.parts.length > 0) expect(superfat.parts.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 6);
          expect(lyeVerdict(answer) === 'heavy').toBe(Math.min(superfat.working, superfat.value) < 0);
        }
        const { poured } = review(rig.entries);
        if (poured.kind === 'figures') expect(numbersIn(poured.result).every(Number.isSafeInteger)).toBe(true);
      }),
      { numRuns: 120 },
    );
  });
});
