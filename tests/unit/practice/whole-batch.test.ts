import { describe, expect, it } from 'vitest';
import { hintOf } from '#hardware/practice/hint';
import { createPracticeBench } from '#hardware/practice/opener';
import type { World } from '#hardware/practice/world/world';
import { createBench } from '#lib/bench/pipeline/index';
import type { Bench } from '#lib/bench/pipeline/types';
import { createLink } from '#lib/measure/link/link';
import type { Link, LinkSink } from '#lib/measure/link/link';
import type { IntentWant, SceneAct } from '#lib/protocol/intent';
import { as } from '#lib/units/id';
import type { InstrumentId, ScreenId, VesselId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import { wall } from '#lib/units/time';
import type { Plan } from '#lib/work/batch/index';
import { formula, planned, STOCK_LOT, STOCK_LYE, withEntry, workshop, WORKSHOP } from '#tests/support/formula';
import { MemoryJournal } from '#tests/support/memory-journal';
import { planOf } from '#tests/support/batch';
import { fakeTime } from './fake-time';

const SCREEN = as<ScreenId>('tablet');

/** The practice bench wired to a real bench as the server wires it, under one clock turned by hand. */
interface Workshop {
  readonly bench: Bench;
  readonly world: World;
  /** Runs so long; heartbeats included. */
  pass(ms: number): Promise<void>;
  want(want: IntentWant): Promise<void>;
  scene(act: SceneAct): Promise<string>;
}

const open = (plan: string | Plan, seed: number): Workshop => {
  const time = fakeTime();
  const clock = { now: () => time.clock.now(), wall: () => wall(1_760_000_000_000 + time.clock.now()), offsetMinutes: () => 0 };
  const practice = createPracticeBench({ seed, clock, timers: time.timers });
  const scales = practice.configs.flatMap((config) => (config.kind === 'scale' ? [{ id: config.id, role: config.role }] : []));
  const links = new Map<InstrumentId, Link>();
  let ids = 0;
  const newId = <T extends string>(): T => as<T>(`id-${String((ids += 1)).padStart(8, '0')}`);
  const { bench, inputs } = createBench({
    boot: as('boot-one'),
    name: 'bench',
    realm: 'practice',
    clock,
    up: () => time.clock.now(),
    configs: practice.configs,
    status: (id) => links.get(id)?.status() ?? { phase: 'closed', nature: null },
    journal: new MemoryJournal(),
    batch: null,
    checks: {},
    newEntryId: newId,
    newBatchId: newId,
    newMark: () => Promise.resolve('26-11'),
    person: as('maker'),
    plan: () => (typeof plan === 'string' ? planOf(plan) : plan),
    load: () => Promise.resolve(null),
    probesInVessel: () => practice.scene.leaning().map((id) => as<VesselId>(id)),
    scene: {
      act: (act, cue, batch) => practice.scene.act(act, hintOf(cue, batch, scales)),
      look: (cue, batch) => practice.scene.hint(hintOf(cue, batch, scales)),
    },
    trouble: (what, error) => {
      throw new Error(what, { cause: error });
    },
  });
  for (const config of practice.configs) {
    const sink: LinkSink = { reading: (reading) => inputs.reading(reading), status: (status) => inputs.status(status) };
    const link = createLink({ config, opener: practice.opener, clock, timers: time.timers, sink });
    links.set(config.id, link);
    link.start();
  }
  bench.takeLease(SCREEN, 'tablet');

  return {
    bench,
    world: practice.world(),
    async pass(ms) {
      for (let t = 0; t < ms; t += 50) {
        time.pass(50);
        inputs.tick();
        await inputs.idle();
      }
      bench.alive(SCREEN, true);
    },
    async want(want) {
      const state = bench.batch();
      const seen = { boot: bench.boot, episode: bench.frame().cue.episode };
      const head = {
        id: newId<string>(),
        batch: state?.id ?? null,
        expectedVersion: state?.version ?? null,
        seen,
        expires: bench.now() + 3_000,
      };
      await bench.intent({ screen: SCREEN, role: 'maker' }, { ...head, want });
    },
    scene: async (act) => (await bench.scene(act)).why ?? 'ok',
  };
};

/** What a person at the screen does when the hands alone cannot go on: the first card that may be taken, or go on, held where asked. */
const answer = async (shop: Workshop): Promise<void> => {
  const { cards, goOn } = shop.bench.frame().cue;
  const card = cards.findIndex(({ enabled }) => enabled);
  if (goOn !== null && goOn.code !== 'next-card') await shop.want({ kind: 'press', key: 'go-on', hold: goOn.hold });
  else if (card >= 0) await shop.want({ kind: 'take-card', card, code: cards[card]?.code ?? '', hold: true });
};

describe('a whole batch on the practice bench', () => {
  it.each([
    ['meadowsweet', 1],
    ['meadowsweet', 2],
    ['alder-and-oat', 41],
  ])('%s (seed %i): weighed by asking for help, each weight within a division of what the pan truly took', async (plan, seed) => {
    const shop = open(plan, seed);
    await shop.pass(2_000);
    await shop.want({ kind: 'start', plan, lots: {} });
    const batch = () => {
      const state = shop.bench.batch();
      if (state === null) throw new Error('no batch');
      return state;
    };
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
    const batch = () => {
      const state = shop.bench.batch();
      if (state === null) throw new Error('no batch');
      return state;
    };
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
