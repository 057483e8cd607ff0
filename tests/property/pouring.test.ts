import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { mg } from '#lib/units/mass';
import { mouldsOf } from '#lib/work/batch/moulds';
import { contentsOf, hadIn, massOf } from '#lib/work/batch/pouring/amounts';
import type { Source } from '#lib/work/batch/pouring/types';
import { started } from '#tests/support/batch';
import { nameAll, partOff, setDown, twoParts, weighLeft } from '#tests/support/pouring';

const SOURCES: readonly Source[] = ['pot', 'part:green'];
/** Whole milligrams of several pours are each rounded once. */
const ROUNDED = 4;

const hundredths = (min: number, max: number): fc.Arbitrary<number> => fc.integer({ min, max }).map((one) => one / 100);

/** How much of what a jug has left goes into one mould, and whether what stays behind is weighed. */
const story = fc.record({
  part: hundredths(20, 70),
  pours: fc.array(fc.tuple(fc.constantFrom(1, 2), hundredths(0, 60), hundredths(0, 60)), { minLength: 1, maxLength: 4 }),
  weighed: fc.tuple(fc.boolean(), fc.boolean()),
});

describe('whatever is poured into what', () => {
  it('the truth lies within what is said of each mould, and what is said to be known is the truth', () => {
    const seen = { known: 0, unknown: 0 };
    fc.assert(
      fc.property(story, ({ part, pours, weighed }) => {
        const rig = started(twoParts()).weighAll().makeLye();
        nameAll(rig);
        rig.join().must('stamp-trace', { mark: 'thin', note: '' });
        setDown(rig, 'part:green', 210_000);
        partOff(rig, 'green', Math.round((part * massOf(contentsOf(rig.now, 'pot'))) / 1_000));
        rig.weigh('chlorella');
        const there = new Map(SOURCES.map((source) => [source, hadIn(rig.now, source) as number]));
        const contents = new Map(SOURCES.map((source) => [source, contentsOf(rig.now, source)]));
        const truth = new Map<string, number>();
        for (const [mould, ofPot, ofGreen] of pours) {
          const given = SOURCES.map((source, at) => ({
            source,
            mass: Math.floor((there.get(source) ?? 0) * (at === 0 ? ofPot : ofGreen)),
          }));
          const from = given.filter(({ mass }) => mass > 0);
          const mass = from.reduce((sum, one) => sum + one.mass, 0);
          if (mass === 0) continue;
          rig.must('pour-mould', { mould, from: from.map(({ source }) => source), mass: mg(mass) });
          for (const one of from) {
            there.set(one.source, (there.get(one.source) ?? 0) - one.mass);
            const all = contents.get(one.source) ?? [];
            for (const { line, mass: held } of all) {
              const key = `${mould} ${line}`;
              truth.set(key, (truth.get(key) ?? 0) + (one.mass * held) / massOf(all));
            }
          }
        }
        for (const [at, source] of SOURCES.entries())
          if (weighed[at] === true) rig.must('weigh-left', { of: source, mass: mg(there.get(source) ?? 0) });
        expect(weighLeft(rig, 'part:none', 1)).toBe('no-such');
        for (const { n, mass, shares, materials } of mouldsOf(rig.now)) {
          if (mass === null) continue;
          const sum = materials.reduce((all, one) => all + (one.mass ?? 0), 0);
          if (shares === 'known') expect(sum).toBe(mass);
          seen[shares] += 1;
          for (const { line, low, high } of materials) {
            const true_ = truth.get(`${n} ${line}`) ?? 0;
            expect(true_).toBeGreaterThanOrEqual(low - ROUNDED);
            expect(true_).toBeLessThanOrEqual(high + ROUNDED);
          }
        }
      }),
      { numRuns: 60, seed: 11 },
    );
    expect(Math.min(seen.known, seen.unknown)).toBeGreaterThan(15);
  });
});
