import { describe, expect, it } from 'vitest';
import type { VesselId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import { formula, planned, STOCK_LOT, STOCK_LYE, withEntry, workshop, WORKSHOP } from '#tests/support/formula';
import { answer, batchIn, open } from './shop';

describe('a whole batch on the practice bench', () => {
  it.each([
    ['meadowsweet', 1],
    ['meadowsweet', 2],
    ['alder-and-oat', 41],
  ])('%s (seed %i): weighed by asking for help, each weight within a division of what the pan truly took', async (plan, seed) => {
    const shop = open(plan, seed);
    await shop.pass(2_000);
    await shop.want({ kind: 'start', plan, lots: {} });
    const batch = () => batchIn(shop);
    const truth = new Map<string, number>();
    const counted = new Map<string, number>();
    const count = (): void => {
      for (const { plan, status } of Object.values(batch().lines)) {
        if (status !== 'closed' || truth.has(plan.id)) continue;
        const held = shop.world.vessels.get(plan.vessel)?.contents ?? 0;
        truth.set(plan.id, held - (counted.get(plan.vessel) ?? 0));
        counted.set(plan.vessel, held);
      }
    };
    for (let turn = 0; batch().open !== null; turn += 1) {
      expect(turn).toBeLessThan(3_000);
      await shop.pass(200);
      count();
      if ((await shop.scene({ act: 'help' })) === 'needs-person' && turn % 5 === 0) await answer(shop);
    }
    count();
    for (const { plan, actual, status, outcome } of Object.values(batch().lines)) {
      expect([plan.id, status, outcome]).toEqual([plan.id, 'closed', 'within']);
      const division = plan.scale === 'main' ? 100 : 10;
      expect(Math.abs(actual - (truth.get(plan.id) ?? Infinity))).toBeLessThanOrEqual(division);
    }
    const { brought, there } = shop.world.ledger();
    expect(there).toBe(brought);
  });

  it('oils in parts by a jug, and a stock lye into its own: led to the end, and nothing is lost on the way', async () => {
    const scales = WORKSHOP.scales.map((scale) => (scale.role === 'main' ? { ...scale, capacity: mg(2_000_000) } : scale));
    const context = workshop({ preparations: [STOCK_LYE], lots: [...WORKSHOP.lots, STOCK_LOT], scales });
    const entries = withEntry('soda', { material: 'stock', lot: 'lot-stock' }, withEntry('olive', { lot: 'lot-olive-11' })).filter(
      ({ id }) => id !== 'water',
    );
    const size = { kind: 'fats', value: '4', unit: 'kg' } as const;
    const { plan } = planned(formula({ entries, size, wishes: { superfat: '5', lye: null } }), context);
    expect(plan.lines.filter(({ atOnce }) => atOnce !== undefined).map(({ id }) => String(id))).toContain('olive');
    const shop = open(plan, 7);
    await shop.pass(2_000);
    await shop.want({ kind: 'start', plan: 'made', lots: {} });
    const batch = () => batchIn(shop);
    for (let turn = 0; batch().open !== null; turn += 1) {
      expect(turn, `${shop.bench.frame().cue.phase} ${String(batch().open)}`).toBeLessThan(3_000);
      await shop.pass(200);
      if ((await shop.scene({ act: 'help' })) === 'needs-person' && turn % 5 === 0) await answer(shop);
    }
    for (const { plan: line, outcome, contributions } of Object.values(batch().lines)) {
      expect([line.id, outcome]).toEqual([line.id, 'within']);
      const parts = line.atOnce === undefined ? 1 : Math.ceil(line.target / line.atOnce - 0.03);
      expect(
        contributions.filter(({ kind }) => kind === 'pour'),
        line.id,
      ).toHaveLength(parts);
    }
    const oils = Object.values(batch().lines).reduce((sum, { plan: line, actual }) => (line.phase === 'oils' ? sum + actual : sum), 0);
    const there = [
      ...new Set(
        plan.lines.flatMap(({ phase, vessel, into }) => (phase === 'oils' ? [vessel, ...(into === undefined ? [] : [into])] : [])),
      ),
    ];
    const truly = there.reduce((sum, id) => sum + (shop.world.vessels.get(id)?.contents ?? 0), 0);
    expect(Math.abs(oils - truly)).toBeLessThanOrEqual(1_000);
    const lye = plan.lines.find(({ inSolution }) => inSolution === true);
    expect(batch().vessels[lye?.vessel ?? ('' as VesselId)]?.state).toBe('dissolved');
    expect(shop.world.warmth.celsius('lye')).toBeLessThan(25);
  });
});
