import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { mg } from '#lib/units/mass';
import type { BatchState } from '#lib/work/batch/index';
import { mouldsOf } from '#lib/work/batch/moulds';
import { contentsOf, hadIn, massOf } from '#lib/work/batch/pouring/amounts';
import type { Source } from '#lib/work/batch/pouring/types';
import { barsComposition } from '#lib/work/label/composition';
import type { InMould } from '#lib/work/label/from-mould';
import { started } from '#tests/support/batch';
import { nameAll, partOff, setDown, twoParts, weighLeft } from '#tests/support/pouring';

const SOURCES: readonly Source[] = ['pot', 'part:green'];
/** Whole milligrams of several pours are each rounded once. */
const ROUNDED = 4;

/** mg: less was poured into no mould that is sold, and may pass for drops. */
const NO_MOULD = 20_000;

const high = (materials: readonly InMould[]): number => materials.reduce((sum, one) => sum + one.high, 0);

/** Share of the green half's colour in the bar that may have most of it, before it dries. */
const strongest = (batch: BatchState, moulds: readonly number[]): number => {
  const shares = barsComposition(batch, moulds).mixtures.all.map(({ materials, whole }) => {
    const all = Math.min(high(materials), whole ?? Number.POSITIVE_INFINITY);
    return high(materials.filter(({ material }) => material.id === 'chlorella')) / Math.max(1, all);
  });
  return Math.max(0, ...shares);
};

const hundredths = (min: number, max: number): fc.Arbitrary<number> => fc.integer({ min, max }).map((one) => one / 100);

/** Of what a jug has left; often none of it. */
const given = fc.oneof(fc.constant(0), hundredths(0, 60), hundredths(0, 60));

/** How much of what a jug has left goes into one mould, whether anybody weighs it, and whether what stays behind is weighed. */
const story = fc.record({
  part: hundredths(20, 70),
  pours: fc.array(fc.tuple(fc.constantFrom(1, 2), given, given), { minLength: 1, maxLength: 4 }),
  /** Mould that stays off the scale, if any: what goes into it is in no record. */
  hidden: fc.constantFrom(0, 0, 0, 1, 2),
  weighed: fc.tuple(fc.boolean(), fc.boolean()),
});

describe('whatever is poured into what', () => {
  it('the truth lies within what is said of each mould, and what is said to be known is the truth', () => {
    const seen = { known: 0, unknown: 0, hidden: 0 };
    fc.assert(
      fc.property(story, ({ part, pours, hidden, weighed }) => {
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
          if (mould !== hidden) rig.must('pour-mould', { mould, from: from.map(({ source }) => source), mass: mg(mass) });
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
        const unseen = [...truth].reduce((sum, [key, held]) => (key.startsWith(`${hidden} `) ? sum + held : sum), 0);
        const off = unseen <= NO_MOULD ? unseen : 0;
        for (const { n, mass, shares, materials } of mouldsOf(rig.now)) {
          const whole = [...truth].reduce((sum, [key, held]) => (key.startsWith(`${n} `) ? sum + held : sum), 0);
          const green = Math.max(0, (truth.get(`${n} chlorella`) ?? 0) - ROUNDED - off) / Math.max(1, whole);
          for (const lot of [[n], [1, 2]]) expect(strongest(rig.now, lot)).toBeGreaterThanOrEqual(green);
          if (mass === null && whole > 0) seen.hidden += 1;
          if (mass === null) continue;
          const sum = materials.reduce((all, one) => all + (one.mass ?? 0), 0);
          if (shares === 'known') expect(sum).toBe(mass);
          seen[shares] += 1;
          for (const { line, low, high } of materials) {
            const true_ = truth.get(`${n} ${line}`) ?? 0;
            expect(true_).toBeGreaterThanOrEqual(low - ROUNDED - off);
            expect(true_).toBeLessThanOrEqual(high + ROUNDED + off);
          }
        }
      }),
      { numRuns: 80, seed: 11 },
    );
    expect(Math.min(seen.known, seen.unknown, seen.hidden)).toBeGreaterThan(15);
  });
});
