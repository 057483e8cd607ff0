import { describe, expect, it } from 'vitest';
import { IDLE_CUE } from '#lib/bench/conductor/blank';
import type { ForecastLane } from '#lib/protocol/forecast';
import type { Hello, LeaseView, RecordLane } from '#lib/protocol/lanes';
import type { LiveFrame } from '#lib/protocol/live';
import { as } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import { BLANK_AFTER_MS } from '../../../app/_live/freshness';
import { fold } from '../../../app/_live/fold';
import { createLive } from '../../../app/_live/live';
import type { Wire, WireHandlers } from '../../../app/_live/socket';
import { see } from '../../../app/_live/selectors';
import { createLiveStore } from '../../../app/_live/store';
import { started } from '#tests/support/batch';

const LEADS: LeaseView = { holder: 'me', mine: true, label: null, lostForMs: null };
const FREE: LeaseView = { holder: null, mine: false, label: null, lostForMs: null };
const OTHER: LeaseView = { holder: 'other', mine: false, label: 'tablet', lostForMs: null };

const frame = (n: number, at: number, cue: Partial<LiveFrame['cue']> = {}, boot = 'b1'): LiveFrame => ({
  boot,
  n,
  merged: 0,
  at,
  scales: [],
  probes: [],
  cue: { ...IDLE_CUE, ...cue },
  alarms: [],
});

const UNHEARD = { outlook: { kind: 'none', why: 'nothing-heard', blocks: 0, needed: 8 }, marks: [] } as const;
const forecast = (at: number): ForecastLane => ({
  boot: 'b1',
  at,
  batch: null,
  lye: UNHEARD,
  oils: UNHEARD,
  making: null,
  swapped: false,
  meeting: null,
});

const rig = () => started();
const linesOf = (entries: readonly unknown[]): string[] => entries.map((entry) => JSON.stringify(entry));

/** A page with a wire in our hands: what it asks is kept, and answered by `answer`. */
const page = () => {
  const clock = { monotonic: 1_000, wall: 1_700_000_000_000 };
  let connected = true;
  let handlers: WireHandlers | null = null;
  const asked: { event: string; message: Record<string, unknown> }[] = [];
  const ticks: (() => void)[] = [];
  const answers: Record<string, unknown> = { intent: { ok: true, seq: 1, version: 2, repeated: false }, lease: LEADS };
  let reopened = 0;
  const wire: Wire = {
    connected: () => connected,
    ask: (event, message) => {
      if (!connected) return Promise.resolve(null);
      asked.push({ event, message: message as Record<string, unknown> });
      return Promise.resolve((answers[event] ?? null) as never);
    },
    alive: () => {},
    reopen: () => (reopened += 1),
  };
  const store = createLiveStore();
  let ids = 0;
  const live = createLive({
    store,
    digitsFirst: (change) => change(),
    openWire: (_auth, given) => ((handlers = given), wire),
    fold,
    clock: { monotonic: () => clock.monotonic, wall: () => clock.wall },
    freshId: () => `id-${(ids += 1)}`,
    every: (_ms, run) => ticks.push(run),
    visible: () => true,
    auth: () => ({}),
  });
  const on = handlers as unknown as WireHandlers;
  const hello = (change: Partial<Hello> = {}): void =>
    on.hello({
      boot: 'b1',
      protocol: 1,
      build: '',
      bench: 'bench 1',
      realm: 'practice',
      role: 'maker',
      screen: 'me',
      lease: LEADS,
      batch: { batch: null, from: 0, seq: 0, lines: [] },
      live: frame(1, clock.monotonic),
      forecast: null,
      at: clock.monotonic,
      ...change,
    });
  return {
    live,
    store,
    on,
    hello,
    asked,
    answers,
    clock,
    reopened: () => reopened,
    pass: (ms: number): void => {
      clock.monotonic += ms;
      clock.wall += ms;
      for (const tick of ticks) tick();
    },
    drop: (): void => {
      connected = false;
      on.shut();
    },
    back: (): void => {
      connected = true;
    },
  };
};

const POURING = { phase: 'pouring', total: mg(1), left: mg(2), goOn: { code: 'accept', hold: false }, episode: 7 } as const;

describe('A4: what the page shows without the server', () => {
  it('blanks every number within three seconds of the last word, and keeps what it was about', () => {
    const { store, hello, on, clock, pass } = page();
    hello();
    on.live(frame(2, clock.monotonic, POURING));
    pass(BLANK_AFTER_MS);
    expect(store.getState().frame?.cue.left).toBe(2);
    pass(1);
    expect(store.getState().stale).toBe(true);
    expect(store.getState().frame?.cue).toMatchObject({ phase: 'pouring', total: null, left: null, goOn: null });
  });

  it('blanks at once when the connection falls, and is fresh again with the next hello', () => {
    const { store, hello, on, clock, drop, back } = page();
    hello();
    on.live(frame(2, clock.monotonic, POURING));
    drop();
    expect(store.getState()).toMatchObject({ link: 'down', stale: true });
    expect(store.getState().frame?.cue.left).toBeNull();
    back();
    hello({ live: frame(3, clock.monotonic, POURING) });
    expect(store.getState()).toMatchObject({ link: 'up', stale: false });
    expect(store.getState().frame?.cue.left).toBe(2);
  });

  it('takes the newest forecast of this boot, and shows none while everything is blank', () => {
    const { store, hello, on, clock, pass, drop } = page();
    hello({ forecast: forecast(500) });
    expect(see.forecast(store.getState())?.at).toBe(500);
    on.forecast(forecast(900));
    on.forecast(forecast(700));
    on.forecast({ ...forecast(950), boot: 'b0' });
    expect(see.forecast(store.getState())?.at).toBe(900);
    pass(BLANK_AFTER_MS + 1);
    expect(see.forecast(store.getState())).toBeNull();
    on.beat({ boot: 'b1', n: 2, at: clock.monotonic, ages: {} });
    expect(see.forecast(store.getState())?.at).toBe(900);
    drop();
    expect(store.getState().forecast).toBeNull();
  });

  it('is not refreshed by a frame of another boot, an older frame, or a beat of another boot', () => {
    const { store, hello, on, clock, pass } = page();
    hello();
    on.live(frame(5, clock.monotonic, POURING));
    on.live(frame(4, clock.monotonic, { phase: 'idle' }));
    on.live(frame(9, clock.monotonic, { phase: 'idle' }, 'b0'));
    expect(store.getState().frame?.n).toBe(5);
    pass(BLANK_AFTER_MS + 1);
    on.beat({ boot: 'b0', n: 9, at: clock.monotonic, ages: {} });
    expect(store.getState().stale).toBe(true);
    on.beat({ boot: 'b1', n: 9, at: clock.monotonic, ages: {} });
    expect(store.getState().stale).toBe(false);
  });
});

describe('A5: taps without a connection', () => {
  it('are refused, and nothing is sent when it comes back', async () => {
    const { live, store, hello, asked, drop, back } = page();
    hello();
    drop();
    for (let tap = 0; tap < 3; tap += 1)
      expect(await live.intend({ kind: 'press', key: 'go-on', hold: false })).toMatchObject({ ok: false, refusal: { code: 'offline' } });
    expect(store.getState().notice?.code).toBe('offline');
    back();
    hello();
    expect(asked).toEqual([]);
  });

  it('are refused while the connection looks open but has gone silent', async () => {
    const { live, hello, asked, pass } = page();
    hello();
    pass(BLANK_AFTER_MS + 1);
    expect(await live.intend({ kind: 'press', key: 'go-on', hold: false })).toMatchObject({ ok: false });
    expect(asked).toEqual([]);
  });

  it('carry an id, the version and episode looked at, and an expiry on the server clock', async () => {
    const { live, hello, on, clock, asked, pass } = page();
    const batch = rig();
    hello({ batch: { batch: 'batch-1', from: 0, seq: 1, lines: linesOf(batch.entries) } });
    on.live(frame(2, clock.monotonic, POURING));
    pass(500);
    await live.intend({ kind: 'press', key: 'go-on', hold: false });
    expect(asked.at(-1)?.message).toMatchObject({
      id: 'id-1',
      batch: 'batch-1',
      expectedVersion: 1,
      seen: { boot: 'b1', episode: 7 },
      expires: clock.monotonic + 3_000,
    });
  });

  it('say so when no answer came, and are not an error when another screen did the same', async () => {
    const { live, store, hello, answers } = page();
    hello();
    answers['intent'] = null;
    await live.intend({ kind: 'press', key: 'go-on', hold: false });
    expect(store.getState()).toMatchObject({ sending: false, notice: { code: 'no-answer' } });
    answers['intent'] = { ok: false, refusal: { code: 'already-done', params: {} } };
    await live.intend({ kind: 'press', key: 'go-on', hold: false });
    expect(store.getState().notice).toBeNull();
    answers['intent'] = { ok: false, refusal: { code: 'moved-on', params: {} } };
    await live.intend({ kind: 'press', key: 'go-on', hold: false });
    expect(store.getState().notice?.code).toBe('moved-on');
  });
});

describe('what the practice bench would not do', () => {
  it('is told with the bench’s own reason', async () => {
    const { live, store, hello, answers } = page();
    hello();
    answers['scene'] = { ok: false, why: 'pan-empty' };
    expect(await live.scene({ act: 'lift' })).toBe(false);
    expect(store.getState().notice).toMatchObject({ code: 'scene-refused', params: { why: 'pan-empty' } });
  });
});

describe('who leads', () => {
  it('takes control when nobody has it at first sight, never from another', () => {
    const free = page();
    free.live.leadAs('screen');
    free.hello({ lease: FREE });
    // Never as a person takes it: another page may have taken it meanwhile.
    expect(free.asked).toMatchObject([{ event: 'lease', message: { want: 'take-free' } }]);
    const late = page();
    late.hello({ lease: FREE });
    late.live.leadAs('screen');
    expect(late.asked).toMatchObject([{ event: 'lease', message: { want: 'take-free' } }]);
    const held = page();
    held.live.leadAs('screen');
    held.hello({ lease: OTHER });
    expect(held.asked).toEqual([]);
  });

  it('takes it back after a restart only if it had it', () => {
    const watcher = page();
    watcher.live.leadAs('screen');
    watcher.hello({ lease: OTHER });
    watcher.hello({ boot: 'b2', lease: FREE });
    expect(watcher.asked).toEqual([]);
    const leader = page();
    leader.live.leadAs('screen');
    leader.on.lease(LEADS);
    leader.hello({ boot: 'b2', lease: FREE });
    expect(leader.asked.map(({ event }) => event)).toEqual(['lease']);
  });

  it('takes it when a page that was gone at first sight leaves it free, never after having seen a page that was there', () => {
    const next = page();
    next.live.leadAs('screen');
    next.hello({ lease: { ...OTHER, lostForMs: 2_000 } });
    next.on.lease({ ...OTHER, lostForMs: 9_000 });
    expect(next.asked).toEqual([]);
    next.on.lease(FREE);
    expect(next.asked.map(({ message }) => message['want'])).toEqual(['take-free']);
    const watcher = page();
    watcher.live.leadAs('screen');
    watcher.hello({ lease: OTHER });
    watcher.on.lease({ ...OTHER, lostForMs: 9_000 });
    watcher.on.lease(FREE);
    expect(watcher.asked).toEqual([]);
  });

  it('does not take back what a person gave up', async () => {
    const { live, hello, on, asked, answers } = page();
    live.leadAs('screen');
    hello({ lease: LEADS });
    answers['lease'] = FREE;
    const given = live.lease('release', '');
    on.lease(FREE);
    await given;
    on.lease(FREE);
    expect(asked.map(({ message }) => message['want'])).toEqual(['release']);
  });

  it('lets a watcher silence and nothing else', async () => {
    const { live, hello, asked, store } = page();
    hello({ lease: OTHER });
    await live.intend({ kind: 'press', key: 'go-on', hold: false });
    expect(store.getState().notice?.code).toBe('not-in-control');
    await live.intend({ kind: 'press', key: 'silence', hold: false });
    expect(asked.map(({ message }) => (message['want'] as { key: string }).key)).toEqual(['silence']);
  });
});

const batch = () => rig().weighAll('olive');

const lane = (entries: readonly unknown[], from: number, seq: number): RecordLane => ({
  batch: 'batch-1',
  from,
  seq,
  lines: linesOf(entries),
});

describe('the record lane', () => {
  it('folds what the server folded', () => {
    const { store, hello, on } = page();
    const { entries, now } = batch();
    hello({ batch: lane(entries.slice(0, 3), 0, 3) });
    on.record(lane(entries.slice(3), 3, entries.length));
    expect(store.getState().batch).toEqual(now);
  });

  it('asks for what it missed instead of folding over a gap', async () => {
    const { store, hello, on, asked, answers } = page();
    const { entries, now } = batch();
    hello({ batch: lane(entries.slice(0, 2), 0, 2) });
    answers['resume'] = lane(entries.slice(2), 2, entries.length);
    on.record(lane(entries.slice(5), 5, entries.length));
    expect(asked.at(-1)).toMatchObject({ event: 'resume', message: { batch: 'batch-1', seq: 2 } });
    await Promise.resolve();
    await Promise.resolve();
    expect(store.getState().batch).toEqual(now);
  });

  it('looks at a batch it cannot read, and acts on nothing', async () => {
    const { live, store, hello, asked } = page();
    const { entries } = batch();
    const newer = { ...entries[1], v: 2 };
    hello({ batch: lane([entries[0], newer], 0, 2) });
    expect(store.getState().unreadable).toContain('version 2');
    expect(store.getState().batch?.version).toBe(1);
    expect(await live.intend({ kind: 'press', key: 'go-on', hold: false })).toMatchObject({ ok: false });
    expect(asked).toEqual([]);
  });

  it('does not act on a page of another protocol', () => {
    const { store, hello } = page();
    hello({ protocol: 99 });
    expect(store.getState()).toMatchObject({ outdated: true, standing: null, frame: null });
  });
});

it('B18: a frame that says the same leaves every shared part the same object', () => {
  const { store, hello, on, clock } = page();
  hello();
  const cards = [{ code: 'carry-on', params: { over: 3 }, hold: true, enabled: true, why: null }];
  on.live(frame(2, clock.monotonic, { phase: 'over', cards, line: as('olive') }));
  const before = store.getState().frame;
  on.live(frame(3, clock.monotonic, { phase: 'over', cards: structuredClone(cards), line: as('olive') }));
  expect(store.getState().frame).not.toBe(before);
  expect(store.getState().frame?.cue).toBe(before?.cue);
});
