import { describe, expect, it } from 'vitest';
import type { CuePhase } from '#lib/bench/cue';
import { hintOf } from '#hardware/practice/hint';
import type { SceneHint, ShelfVessel } from '#hardware/practice/hint';
import { createPracticeBench } from '#hardware/practice/opener';
import type { PracticeBench } from '#hardware/practice/opener';
import { IDLE_CUE } from '#lib/bench/conductor/blank';
import type { SceneAct } from '#lib/protocol/intent';
import { as } from '#lib/units/id';
import { fakeTime } from './fake-time';

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
  shelf: SHELF,
  mode: 'gain',
  left: null,
  target: null,
  tolerance: null,
  easeOff: false,
  overshoot: null,
  block: null,
  window: { low: 35_000, high: 43_000 },
  dissolved: false,
};

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
    const high = at.on('main');
    expect(at.help({ phase: 'ready', left: -6_000, tolerance: 1_000 })).toBe('ok');
    at.rest();
    expect(high - at.on('main')).toBe(6_000);
  });

  it('takes a heavy bottle’s loss: out of what stands on the pan', () => {
    const at = stage();
    const hint = { vessel: 'v-pot', mode: 'loss' as const, shelf: SHELF.map((v) => ({ ...v, contents: 900_000 })) };
    at.help({ ...hint, phase: 'waiting-vessel' });
    at.rest();
    expect(at.on('main')).toBe(1_712_300);
    expect(at.help({ ...hint, phase: 'ready', left: 80_000, tolerance: 500 })).toBe('ok');
    at.rest();
    expect(Math.abs(1_712_300 - at.on('main') - 80_000)).toBeLessThanOrEqual(500);
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

  it('makes the lye and brings both vessels into the window with baths', () => {
    const at = stage();
    const hint = { phase: 'temperatures' as const };
    at.act({ act: 'hurry', times: 20 });
    expect(at.help(hint)).toBe('ok');
    at.pass(6_000);
    const { warmth } = at.bench.world();
    expect(warmth.lye.celsius).toBeGreaterThan(70);
    for (let i = 0; i < 40; i += 1) {
      at.help(hint);
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
    expect(at.act({ act: 'make-lye' })).toBe('ok');
    expect(at.act({ act: 'make-lye' })).toBe('already');
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
    const at = stage();
    const world = at.bench.world();
    for (const [vessel, aim] of [
      ['v-dry', 95_000],
      ['v-lye', 190_000],
    ] as const) {
      at.act({ act: 'set-down', vessel });
      at.rest();
      at.act({ act: 'pour', aim });
      at.rest();
      at.act({ act: 'lift' });
      at.rest();
    }
    const both = (world.vessels.get('v-dry')?.contents ?? 0) + (world.vessels.get('v-lye')?.contents ?? 0);
    at.act({ act: 'make-lye' });
    expect(world.vessels.get('v-dry')?.contents).toBe(0);
    expect(world.vessels.get('v-lye')?.contents).toBe(both);
    expect(world.ledger().there).toBe(world.ledger().brought);
  });

  it('another batch begins with a clear table, clean vessels and melted oils', () => {
    const at = stage();
    at.act({ act: 'set-down', vessel: 'oils pot' });
    at.rest();
    at.act({ act: 'make-lye' });
    at.pass(60_000);
    at.bench.scene.hint({ ...BLANK, batch: 'b2' });
    expect(at.on('main')).toBe(0);
    expect(at.bench.world().warmth.lyeMade).toBe(false);
    expect(at.help({ batch: 'b2', phase: 'waiting-vessel' })).toBe('ok');
    at.rest();
    expect(at.on('main')).toBe(812_300);
  });
});

describe('hintOf', () => {
  it('says no more than a screen without a batch shows', () => {
    expect(hintOf({ ...IDLE_CUE, instrument: as('practice-fine') }, null, [{ id: as('practice-fine'), role: 'fine' }])).toMatchObject({
      batch: null,
      phase: 'idle',
      role: 'fine',
      shelf: [],
      left: null,
    });
  });
});
