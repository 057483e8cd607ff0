import { describe, expect, it } from 'vitest';
import { createHands, learnHand, stoppedBy, type Stopped } from '#lib/bench/hand';
import { as, type PersonId } from '#lib/units/id';
import type { Journal } from '#lib/record/journal';
import type { Entry } from '#lib/work/batch/index';
import { remembered } from '#server/bench/restore';

const anna = as<PersonId>('anna');
const ben = as<PersonId>('ben');
/** A pour at 10 g/s on a 0.1 g scale that ended so many ms later (or earlier) than expected. */
const late = (ms: number, hand = anna): Stopped => ({ hand, came: 5000 + 10 * ms, coming: 5000, rate: 10_000, step: 100 });
const entry = (body: unknown): Entry => ({ kind: 'weight-accepted', body }) as Entry;

describe('what is learnt of a hand', () => {
  it('is nothing from two pours, whatever they say', () => {
    expect(learnHand([late(300), late(300)])).toEqual({ seen: 2, lag: 0 });
  });

  it('is nothing while the pours may be chance', () => {
    expect(learnHand([late(250), late(-250), late(100), late(-80), late(20)])).toEqual({ seen: 5, lag: 0 });
  });

  it('is a bias, shrunken, and nearer to it the more pours show it', () => {
    const few = learnHand([late(200), late(180), late(220)]).lag;
    const many = learnHand(Array.from({ length: 20 }, (_, n) => late(n % 2 === 0 ? 180 : 220))).lag;
    expect(few).toBeGreaterThan(80);
    expect(many).toBeGreaterThan(few);
    expect(many).toBeLessThan(200);
    expect(learnHand([late(-200), late(-180), late(-220)]).lag).toBe(-few);
  });

  it('is not thrown far by one odd pour', () => {
    const odd = learnHand([...Array.from({ length: 9 }, () => late(0)), late(20_000)]).lag;
    expect(Math.abs(odd)).toBeLessThan(80);
  });

  it('counts less where the scale cannot tell', () => {
    const coarse = learnHand([late(200), late(200), late(200)].map((one) => ({ ...one, step: 5000 })));
    expect(coarse.lag).toBe(0);
  });

  it('is each person’s own', () => {
    const hands = createHands([late(200), late(200, ben), late(200), late(0, ben), late(200), late(-10, ben)]);
    expect(hands.of(anna).lag).toBeGreaterThan(80);
    expect(hands.of(ben).lag).toBe(0);
    expect(hands.of(as('nobody'))).toEqual({ seen: 0, lag: 0 });
    hands.saw(late(200));
    expect(hands.of(anna).seen).toBe(4);
  });

  it('is read from the weight in the record, and from nothing else', () => {
    const weighed = { net: 400_200, step: 100 };
    const eased = { hand: 'anna', net: 395_000, coming: 4_800, rate: 9_000 };
    expect(stoppedBy(entry({ weighed, eased }))).toEqual({ hand: 'anna', came: 5_200, coming: 4_800, rate: 9_000, step: 100 });
    expect(stoppedBy(entry({ weighed }))).toBeNull();
    expect(stoppedBy(entry({ weighed, eased: { ...eased, rate: 0 } }))).toBeNull();
    expect(stoppedBy({ kind: 'noted', body: { text: 'eased' } } as Entry)).toBeNull();
  });

  it('comes back from the journal after a restart', async () => {
    const accepted = { id: 'e2', kind: 'weight-accepted', body: { weighed: { net: 400_200, step: 100 }, eased: late(0) } };
    const entries = [{ id: 'e1', kind: 'noted', body: { text: 'nothing' } }, accepted];
    const lines = entries.map((entry, n) => ({ seq: n + 1, text: JSON.stringify(entry) }));
    const journal = { seq: () => lines.length, lines: (after: number) => Promise.resolve(lines.filter(({ seq }) => seq > after)) };
    const { stops } = await remembered(journal as unknown as Journal);
    expect(stops.map(({ hand, step }) => ({ hand, step }))).toEqual([{ hand: 'anna', step: 100 }]);
  });
});
