import { describe, expect, it } from 'vitest';
import type { CuePhase } from '#lib/bench/cue';
import { hintOf } from '#hardware/practice/hint';
import type { SceneHint } from '#hardware/practice/hint';
import type { ShelfVessel } from '#hardware/practice/shelf-vessel';
import { createPracticeBench } from '#hardware/practice/opener';
import type { PracticeBench } from '#hardware/practice/opener';
import { IDLE_CUE } from '#lib/bench/conductor/blank';
import type { SceneAct } from '#lib/protocol/intent';
import { as } from '#lib/units/id';
import type { InstrumentId, VesselId } from '#lib/units/id';
import { SAMPLE_PLANS } from '#lib/work/formula/sample';
import { BatchRig } from '#tests/support/batch';
import { fakeTime } from './fake-time';

const SCALES = [
  { id: as<InstrumentId>('practice-main'), role: 'main' as const },
  { id: as<InstrumentId>('practice-fine'), role: 'fine' as const },
];
const SHELF: readonly ShelfVessel[] = [
  { id: 'v-pot', name: 'oils pot', use: 'oils', empty: 812_300, contents: 0 },
  { id: 'v-lye', name: 'lye jug', use: 'liquid', empty: 205_000, contents: 0 },
  { id: 'v-dry', name: 'hydroxide cup', use: 'hydroxide', empty: 60_500, contents: 0 },
  { id: 'v-cup', name: 'scent cup', use: 'aside', empty: 41_230, contents: 0 },
];
const BLANK: SceneHint = {
  batch: 'b1',
  phase: 'idle',
  role: 'main',
  vessel: 'v-pot',
  into: null,
  shelf: SHELF,
  mode: 'gain',
  left: null,
  target: null,
  tolerance: null,
  easeOff: false,
  overshoot: null,
  block: null,
  crossedOut: false,
  window: { low: 35_000, high: 43_000 },
  dissolved: false,
  stock: false,
  joined: null,
};
/** As after weighing: hydroxide stands dry in its cup. */
const WEIGHED = SHELF.map((vessel) => (vessel.use === 'hydroxide' ? { ...vessel, contents: 95_000 } : vessel));

interface Stage {
  readonly bench: PracticeBench;
  pass(ms: number): void;
  act(act: SceneAct, hint?: Partial<SceneHint>): string;
  help(hint: Partial<SceneHint>): string;
  /** Until the hands are free, and the scale has settled. */
  rest(): void;
  on(role: 'main' | 'fine'): number;
}

const stage = (seed = 41): Stage => {
  const time = fakeTime();
  const bench = createPracticeBench({ seed, clock: time.clock, timers: time.timers });
  const pass = (ms: number): void => {
    time.pass(ms);
    bench.world();
  };
  const act = (act: SceneAct, hint: Partial<SceneHint> = {}): string => bench.scene.act(act, { ...BLANK, ...hint }).why ?? 'ok';
  return {
    bench,
    pass,
    act,
    help: (hint) => act({ act: 'help' }, hint),
    rest() {
      for (let t = 0; bench.world().hands.doing !== null; t += 20) {
        if (t > 60_000) throw new Error('the hands never came to an end');
        pass(20);
      }
      pass(2_500);
    },
    on: (role) => bench.world().carried(role),
  };
};

describe('help: what the bench waits for next', () => {
  it('sets the named vessel down on the named scale, pours what is left within tolerance, and lifts', () => {
    const at = stage();
    expect(at.help({ phase: 'waiting-vessel' })).toBe('ok');
    expect(at.help({ phase: 'waiting-vessel' })).toBe('hands-full');
    at.rest();
    expect(at.on('main')).toBe(812_300);
    expect(at.help({ phase: 'waiting-vessel' })).toBe('wait');
    expect(at.help({ phase: 'ready', left: 350_000, target: 350_000, tolerance: 1_500 })).toBe('ok');
    at.rest();
    expect(Math.abs(at.on('main') - 812_300 - 350_000)).toBeLessThanOrEqual(1_500);
    expect(at.help({ phase: 'offer' })).toBe('wait');
    expect(at.help({ phase: 'lift' })).toBe('ok');
    at.rest();
    expect(at.on('main')).toBe(0);
    expect(at.help({ phase: 'waiting-vessel', vessel: 'v-cup', role: 'fine' })).toBe('ok');
    at.rest();
    expect(at.on('fine')).toBe(41_230);
  });

  it('clears another vessel away first, and keeps what is in it for when it comes back', () => {
    const at = stage();
    at.act({ act: 'set-down', vessel: 'oils pot' });
    at.rest();
    at.act({ act: 'pour', aim: 100_000 });
    at.rest();
    const full = at.on('main');
    expect(at.help({ phase: 'waiting-vessel', vessel: 'v-lye' })).toBe('ok');
    at.rest();
    expect(at.on('main')).toBe(0);
    expect(at.help({ phase: 'waiting-vessel', vessel: 'v-lye' })).toBe('ok');
    at.rest();
    expect(at.on('main')).toBe(205_000);
    at.act({ act: 'lift' });
    at.rest();
    expect(at.help({ phase: 'returning', vessel: 'v-pot' })).toBe('ok');
    at.rest();
    expect(at.on('main')).toBe(full);
  });

  it('tops up what is short and takes back what is over', () => {
    const at = stage();
    at.help({ phase: 'waiting-vessel' });
    at.rest();
    at.help({ phase: 'ready', left: 200_000, tolerance: 1_000 });
    at.rest();
    const before = at.on('main');
    expect(at.help({ phase: 'short', left: 4_000, tolerance: 1_000 })).toBe('ok');
    at.rest();
    expect(Math.abs(at.on('main') - before - 4_000)).toBeLessThanOrEqual(1_000);
    expect(at.help({ phase: 'pouring', left: 1_000, tolerance: 1_000 })).toBe('wait');
    expect(at.help({ phase: 'short', left: 1_000, tolerance: 1_000 })).toBe('ok');
    at.rest();
    const high = at.on('main');
    expect(at.help({ phase: 'over', left: -6_000, tolerance: 1_000 })).toBe('needs-person');
    expect(at.help({ phase: 'over', left: -6_000, tolerance: 1_000, crossedOut: true })).toBe('ok');
    at.rest();
    expect(high - at.on('main')).toBe(6_000);
  });

  it('takes a heavy bottle’s loss: out of what stands on the pan', () => {
    const at = stage();
    const hint = { vessel: 'v-pot', mode: 'loss' as const, left: 80_000, target: 80_000, tolerance: 500 };
    at.help({ ...hint, phase: 'waiting-vessel' });
    at.rest();
    const full = at.on('main');
    expect(full).toBeGreaterThan(812_300 + 80_000);
    expect(at.help({ ...hint, phase: 'ready' })).toBe('ok');
    at.rest();
    expect(Math.abs(full - at.on('main') - 80_000)).toBeLessThanOrEqual(500);
  });

  it('pours no further than the scale can show, and carries an accepted part over into its pot', () => {
    const at = stage();
    const shelf = [...SHELF, { id: 'v-batch', name: 'batch pot', use: 'oils' as const, empty: null, contents: 0 }];
    const hint = { shelf, into: 'v-batch', target: 6_000_000, tolerance: 9_000 };
    at.help({ ...hint, phase: 'waiting-vessel' });
    at.rest();
    expect(at.help({ ...hint, phase: 'ready', left: 6_000_000 })).toBe('ok');
    at.rest();
    const gross = at.on('main');
    expect(gross).toBeGreaterThan(4_900_000);
    expect(gross).toBeLessThan(5_000_000);
    expect(at.help({ ...hint, phase: 'pouring', left: 1_800_000 })).toBe('full');
    expect(at.help({ ...hint, phase: 'ready', left: 1_800_000 })).toBe('ok');
    at.rest();
    at.help({ ...hint, phase: 'waiting-vessel' });
    at.rest();
    expect(at.on('main')).toBeLessThan(812_300 + 0.003 * gross);
    const world = at.bench.world();
    expect(world.vessels.get('v-batch')?.contents).toBeGreaterThan(0.99 * (gross - 812_300));
    expect(world.ledger().there).toBe(world.ledger().brought);
  });

  it('takes a leaning probe out, lifts a wrong vessel, plugs a lost scale in, and waits when only time helps', () => {
    const at = stage();
    at.help({ phase: 'waiting-vessel' });
    at.rest();
    expect(at.act({ act: 'lean-probe' })).toBe('ok');
    expect(at.bench.scene.leaning()).toEqual(['v-pot']);
    expect(at.on('main')).toBeGreaterThan(812_300);
    expect(at.help({ phase: 'blocked', block: 'probe-leaning' })).toBe('ok');
    at.rest();
    expect(at.on('main')).toBe(812_300);
    expect(at.bench.scene.leaning()).toEqual([]);
    expect(at.help({ phase: 'blocked', block: 'late' })).toBe('wait');
    expect(at.help({ phase: 'blocked', block: 'wrong-vessel' })).toBe('ok');
    at.rest();
    expect(at.on('main')).toBe(0);
    at.act({ act: 'unplug', what: 'main' });
    expect(at.help({ phase: 'no-weight' })).toBe('ok');
    expect(at.act({ act: 'plug', what: 'main' })).toBe('already');
  });

  it('clears a stranger’s vessel away, but leaves the right one with an unlike mass to a person', () => {
    const at = stage();
    at.act({ act: 'set-down', vessel: 'somebody’s mug' });
    at.rest();
    expect(at.help({ phase: 'strange-vessel', block: 'wrong-vessel' })).toBe('ok');
    at.rest();
    expect(at.on('main')).toBe(0);
    at.act({ act: 'set-down', vessel: 'v-pot' });
    at.rest();
    expect(at.help({ phase: 'strange-vessel', block: 'wrong-vessel' })).toBe('needs-person');
  });

  it('makes the lye and brings both vessels into the window with baths', () => {
    const at = stage();
    const hint = { phase: 'temperatures' as const, shelf: WEIGHED };
    at.act({ act: 'hurry', times: 20 });
    expect(at.help(hint)).toBe('ok');
    expect(at.help(hint)).toBe('needs-person');
    at.pass(100_000);
    const { warmth } = at.bench.world();
    expect(warmth.lye.celsius).toBeGreaterThan(45);
    for (let i = 0; i < 40; i += 1) {
      at.help({ ...hint, dissolved: true });
      at.pass(3_000);
    }
    for (const what of ['lye', 'oils'] as const) {
      expect(warmth[what].celsius).toBeGreaterThan(35);
      expect(warmth[what].celsius).toBeLessThan(43);
    }
  });

  it.each<CuePhase>([
    'idle',
    'gate',
    'choose-lot',
    'ask',
    'hold',
    'over',
    'question',
    'away',
    'by-hand',
    'trace',
    'pouring-moulds',
    'done',
  ])('leaves %s to a person', (phase) => {
    expect(stage().help({ phase })).toBe('needs-person');
  });

  it('puts the vessel back as the record has it after a restart, then leaves the answer to a person', () => {
    const at = stage();
    const shelf = SHELF.map((vessel) => (vessel.id === 'v-pot' ? { ...vessel, contents: 350_200 } : vessel));
    expect(at.help({ phase: 'resume', shelf })).toBe('ok');
    at.rest();
    expect(at.on('main')).toBe(812_300 + 350_200);
    expect(at.help({ phase: 'resume', shelf })).toBe('needs-person');
  });
});

/** Hydroxide and water in their vessels, and oils in the pot. */
const weighed = (): Stage => {
  const at = stage();
  for (const [vessel, aim] of [
    ['v-dry', 95_000],
    ['v-lye', 190_000],
    ['v-pot', 700_000],
  ] as const) {
    at.act({ act: 'set-down', vessel });
    at.rest();
    at.act({ act: 'pour', aim });
    at.rest();
    at.act({ act: 'lift' });
    at.rest();
  }
  return at;
};
const inVessel = (at: Stage, id: string): number => at.bench.world().vessels.get(id)?.contents ?? NaN;

describe('acts', () => {
  it('over-pour lands three tolerances over', () => {
    const at = stage();
    at.help({ phase: 'waiting-vessel' });
    at.rest();
    expect(at.act({ act: 'over-pour' }, { phase: 'ready', left: 150_000, tolerance: 700 })).toBe('ok');
    at.rest();
    expect(at.on('main') - 812_300).toBe(150_000 + 3 * 700);
  });

  it('say plainly why they come to nothing', () => {
    const at = stage();
    expect(at.act({ act: 'lift' })).toBe('pan-empty');
    expect(at.act({ act: 'lean-probe' })).toBe('pan-empty');
    expect(at.act({ act: 'pour', aim: null })).toBe('nothing-open');
    expect(at.act({ act: 'pour', aim: null }, { left: 0 })).toBe('nothing-left');
    expect(at.act({ act: 'pour', aim: 5_000 })).toBe('pan-empty');
    expect(at.act({ act: 'over-pour' })).toBe('nothing-open');
    at.act({ act: 'set-down', vessel: 'oils pot' });
    at.rest();
    expect(at.act({ act: 'set-down', vessel: 'oils pot' })).toBe('already');
    expect(at.act({ act: 'set-down', vessel: 'lye jug' })).toBe('pan-occupied');
    at.act({ act: 'unplug', what: 'main' });
    expect(at.act({ act: 'pour', aim: 5_000 })).toBe('unplugged');
    expect(at.act({ act: 'make-lye' })).toBe('nothing-dry');
    expect(at.act({ act: 'make-lye' }, { shelf: WEIGHED })).toBe('ok');
    expect(at.act({ act: 'make-lye' }, { shelf: WEIGHED })).toBe('already');
  });

  it('set a vessel down on the other scale on purpose, and a strange one too', () => {
    const at = stage();
    expect(at.act({ act: 'set-down', vessel: 'scent cup', scale: 'fine' })).toBe('ok');
    expect(at.act({ act: 'set-down', vessel: 'somebody’s mug' })).toBe('hands-full');
    at.rest();
    at.act({ act: 'set-down', vessel: 'somebody’s mug' });
    at.rest();
    expect(at.on('fine')).toBe(41_230);
    expect(SHELF.map(({ empty }) => empty)).not.toContain(at.on('main'));
    expect(at.on('main')).toBeGreaterThan(0);
  });

  it('a splash wets the pan, and the drops stay when the vessel is lifted', () => {
    const at = stage();
    at.act({ act: 'set-down', vessel: 'oils pot' });
    at.rest();
    expect(at.act({ act: 'splash' })).toBe('ok');
    const drops = at.on('main') - 812_300;
    expect(drops).toBeGreaterThanOrEqual(30);
    at.act({ act: 'lift' });
    at.rest();
    expect(at.on('main')).toBe(drops);
  });

  it('unplugged in the middle of a pour: the maker stops, and what fell in meanwhile is there on return', () => {
    const at = stage();
    at.help({ phase: 'waiting-vessel' });
    at.rest();
    at.help({ phase: 'ready', left: 400_000, tolerance: 1_000 });
    at.pass(2_500);
    const sofar = at.on('main');
    at.act({ act: 'unplug', what: 'main' });
    at.rest();
    expect(sofar).toBeGreaterThan(830_000);
    expect(at.on('main')).toBeGreaterThan(sofar);
    expect(at.on('main')).toBeLessThan(812_300 + 350_000);
  });

  it('hydroxide goes from its cup into the liquid when lye is made', () => {
    const at = weighed();
    const world = at.bench.world();
    const both = (world.vessels.get('v-dry')?.contents ?? 0) + (world.vessels.get('v-lye')?.contents ?? 0);
    at.act({ act: 'make-lye' });
    expect(world.vessels.get('v-dry')?.contents).toBe(0);
    expect(world.vessels.get('v-lye')?.contents).toBe(both);
    expect(world.ledger().there).toBe(world.ledger().brought);
  });

  it('the lye is made when a person says so, without the practice sheet', () => {
    const at = weighed();
    at.bench.scene.hint({ ...BLANK, dissolved: true });
    expect(at.bench.world().warmth.lyeMade).toBe(true);
    expect(inVessel(at, 'v-dry')).toBe(0);
  });

  it('joined: lye and oils are one in the pot, by mass and by temperature, once', () => {
    const at = weighed();
    const world = at.bench.world();
    at.bench.scene.hint({ ...BLANK, dissolved: true });
    at.pass(120_000);
    const [lye, oils] = [inVessel(at, 'v-lye'), inVessel(at, 'v-pot')];
    const [hot, warm] = [world.warmth.lye.celsius, world.warmth.oils.celsius];
    expect(hot).toBeGreaterThan(70);
    const shelf = SHELF.map((vessel) => (vessel.id === 'v-pot' ? { ...vessel, contents: lye + oils } : vessel));
    const joined = { ...BLANK, dissolved: true, shelf, joined: { into: 'v-pot', from: [{ id: 'v-lye', mass: lye }] } };
    for (let twice = 0; twice < 2; twice += 1) at.bench.scene.hint(joined);
    expect(inVessel(at, 'v-lye')).toBeLessThan(lye / 100);
    expect(inVessel(at, 'v-pot') + inVessel(at, 'v-lye')).toBe(lye + oils);
    expect(world.ledger().there).toBe(world.ledger().brought);
    const heat = { lye: 3.4 * lye, oils: 2 * oils };
    expect(world.warmth.oils.celsius).toBeCloseTo((heat.lye * hot + heat.oils * warm) / (heat.lye + heat.oils), 6);
    expect(world.warmth.lye.celsius).toBeCloseTo(world.warmth.room, 6);
  });

  it('after a restart the pot is fetched with the batter the record has in it, and nothing is poured again', () => {
    const at = stage();
    const shelf = SHELF.map((vessel) => (vessel.id === 'v-pot' ? { ...vessel, contents: 980_000 } : vessel));
    const joined = { ...BLANK, dissolved: true, shelf, joined: { into: 'v-pot', from: [{ id: 'v-lye', mass: 285_000 }] } };
    at.bench.scene.hint(joined);
    expect(at.act({ act: 'set-down', vessel: 'oils pot' }, joined)).toBe('ok');
    at.rest();
    expect(at.on('main')).toBe(812_300 + 980_000);
    expect(at.bench.world().warmth.lye.celsius).toBeLessThan(25);
  });

  it('another batch begins with a clear table, clean vessels and melted oils', () => {
    const at = stage();
    at.act({ act: 'set-down', vessel: 'oils pot' });
    at.rest();
    at.act({ act: 'make-lye' }, { shelf: WEIGHED });
    at.pass(60_000);
    at.bench.scene.hint({ ...BLANK, batch: 'b2' });
    expect(at.on('main')).toBe(0);
    expect(at.bench.world().warmth.lyeMade).toBe(false);
    expect(at.help({ batch: 'b2', phase: 'waiting-vessel' })).toBe('ok');
    at.rest();
    expect(at.on('main')).toBe(812_300);
  });
});

describe('the invented workshop', () => {
  it.each(SAMPLE_PLANS.map(({ id, plan }) => [id, plan] as const))(
    '%s: every line can be weighed within its tolerance by asking for help',
    (_, plan) => {
      const at = stage();
      const shelf = plan.vessels.map(({ id, name, use, empty }) => ({ id, name, use, empty, contents: 0 }));
      for (const line of plan.lines) {
        const base = { batch: plan.formula.id, shelf, role: line.scale, vessel: line.vessel, into: line.into ?? null, mode: line.mode };
        const hint = { ...base, target: line.target, tolerance: line.tolerance };
        let left: number = line.target;
        for (let part = 0; Math.abs(left) > line.tolerance; part += 1) {
          expect(part).toBeLessThan(6);
          at.help({ ...hint, phase: 'waiting-vessel' });
          at.rest();
          const before = at.on(line.scale);
          at.help({ ...hint, phase: 'ready', left });
          at.rest();
          left -= (line.mode === 'loss' ? -1 : 1) * (at.on(line.scale) - before);
          at.help({ ...hint, phase: 'lift' });
          at.rest();
        }
      }
      const { brought, there } = at.bench.world().ledger();
      expect(there).toBe(brought);
    },
  );
});

describe('hintOf', () => {
  it('says no more than a screen without a batch shows', () => {
    expect(hintOf({ ...IDLE_CUE, instrument: as('practice-fine') }, null, SCALES)).toMatchObject({
      batch: null,
      phase: 'idle',
      role: 'fine',
      shelf: [],
      left: null,
    });
  });

  it('names the open line’s vessel and scale, and what the record has in every vessel', () => {
    const rig = new BatchRig().start();
    const line = rig.line('alder-scent').plan;
    const cue = { ...IDLE_CUE, phase: 'ready' as const, line: line.id, vessel: line.vessel, left: line.target, target: line.target };
    const hint = hintOf(cue, rig.now, SCALES);
    expect(hint).toMatchObject({ batch: rig.now.id, role: 'fine', vessel: 'scent-cup', mode: 'gain', left: 25_000, dissolved: false });
    expect(hint.shelf.find(({ id }) => id === 'oils-pot')).toEqual({
      id: 'oils-pot',
      name: 'oils pot',
      use: 'oils',
      empty: 642_500,
      contents: 0,
    });
    expect(hint.window).toEqual({ low: 30_000, high: 50_000 });
    expect(hint.joined).toBeNull();
  });

  it('says what was poured together once the record does', () => {
    const rig = new BatchRig().start().weighAll().makeLye();
    expect(hintOf(IDLE_CUE, rig.now, SCALES)).toMatchObject({ dissolved: true, joined: null });
    const lye = rig.now.vessels[as<VesselId>('lye-jug')]?.contents;
    rig.join();
    expect(hintOf(IDLE_CUE, rig.now, SCALES)).toMatchObject({
      dissolved: true,
      joined: { into: 'oils-pot', from: [{ id: 'lye-jug', mass: lye }] },
    });
  });
});
