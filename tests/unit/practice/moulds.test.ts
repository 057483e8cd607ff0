import { describe, expect, it } from 'vitest';
import { mouldsOf } from '#lib/work/batch/moulds';
import { leftOver, partsMade } from '#lib/work/batch/pouring/amounts';
import { standing } from '#lib/work/batch/pouring/types';
import { twoParts } from '#tests/support/pouring';
import { answer, batchIn, open } from './shop';

/** The main scale's division, mg. */
const DIVISION = 100;

describe('parts and moulds on the practice bench', () => {
  it('are poured by asking for help alone, each weighed as it truly was, and nothing is lost on the way', async () => {
    const shop = open(twoParts(), 3);
    await shop.pass(2_000);
    await shop.want({ kind: 'start', plan: 'made', lots: {} });
    const done = (): boolean => shop.bench.frame().cue.portion?.at === 'done';
    // Weighed and joined by a person's word: the vessels are fetched with what the record has in them.
    for (let open = batchIn(shop).open; open !== null; open = batchIn(shop).open) {
      const { net, text } = { net: batchIn(shop).lines[open]?.plan.target ?? 0, text: 'as planned' };
      if (shop.bench.frame().cue.phase === 'gate') await shop.want({ kind: 'press', key: 'go-on', hold: true });
      else await shop.want({ kind: 'type-weight', line: open, net, text, unit: 'g', readBack: true, part: false, held: true });
      await shop.pass(700);
    }
    for (let turn = 0; !done(); turn += 1) {
      const { phase, portion } = shop.bench.frame().cue;
      expect(turn, `${phase} ${portion?.at ?? ''} ${portion?.job?.key ?? ''}`).toBeLessThan(1_500);
      await shop.pass(200);
      const hands = phase === 'temperatures' ? 'needs-person' : await shop.scene({ act: 'help' });
      if (hands === 'needs-person' && turn % 4 === 0) await answer(shop);
    }
    const batch = batchIn(shop);
    const held = (vessel: string): number => shop.world.vessels.get(vessel)?.contents ?? NaN;
    for (const { n, mass, byHand } of mouldsOf(batch)) {
      expect(byHand).toBe(false);
      expect(Math.abs((mass ?? NaN) - held(`mould:${n}`)), `mould ${n}`).toBeLessThanOrEqual(DIVISION);
    }
    expect(mouldsOf(batch).map(({ pattern, shares, parts }) => [pattern, shares, parts.length])).toEqual([
      ['plain-pour', 'known', 1],
      ['drop-swirl', 'known', 2],
    ]);
    const [green] = partsMade(batch);
    const colour = Object.values(batch.lines).find(({ plan }) => plan.part === 'green');
    expect(colour?.plan.target).toBe(Math.round((6_000 * (green?.mass ?? NaN)) / (0.5 * plannedPlain(batch))));
    for (const { of, mass } of standing(batch.pour.left))
      expect(Math.abs(mass - held(of === 'pot' ? 'oils-pot' : of)), of).toBeLessThanOrEqual(DIVISION);
    // What clung to cups and jugs on the way is all that the record has and no vessel holds.
    const behind = standing(batch.pour.left).reduce((sum, { mass }) => sum + mass, 0);
    expect(Math.abs(leftOver(batch) - behind)).toBeLessThan(5_000);
    const { brought, there } = shop.world.ledger();
    expect(there).toBe(brought);
  }, 90_000);
});

const plannedPlain = ({ lines }: ReturnType<typeof batchIn>): number =>
  Object.values(lines).reduce((sum, { plan, planned }) => (plan.part === undefined ? sum + planned.target : sum), 0);
