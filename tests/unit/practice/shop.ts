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
import { wall } from '#lib/units/time';
import type { BatchState, Plan } from '#lib/work/batch/index';
import { MemoryJournal } from '#tests/support/memory-journal';
import { planOf } from '#tests/support/batch';
import { fakeTime } from './fake-time';

const SCREEN = as<ScreenId>('tablet');

/** The practice bench wired to a real bench as the server wires it, under one clock turned by hand. */
export interface Workshop {
  readonly bench: Bench;
  readonly world: World;
  /** Runs so long; heartbeats included. */
  pass(ms: number): Promise<void>;
  want(want: IntentWant): Promise<void>;
  scene(act: SceneAct): Promise<string>;
}

export const open = (plan: string | Plan, seed: number): Workshop => {
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
export const answer = async (shop: Workshop): Promise<void> => {
  const { cards, goOn } = shop.bench.frame().cue;
  const card = cards.findIndex(({ enabled }) => enabled);
  if (goOn !== null && goOn.code !== 'next-card') await shop.want({ kind: 'press', key: 'go-on', hold: goOn.hold });
  else if (card >= 0) await shop.want({ kind: 'take-card', card, code: cards[card]?.code ?? '', hold: true });
};

/** The batch on the bench. */
export const batchIn = ({ bench }: Workshop): BatchState => {
  const state = bench.batch();
  if (state === null) throw new Error('no batch');
  return state;
};
