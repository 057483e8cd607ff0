import { IDLE_CUE } from '#lib/bench/conductor/blank';
import type { BenchCue, Card, JoiningCue } from '#lib/bench/cue';
import type { ForecastLane } from '#lib/protocol/forecast';
import type { LeaseView } from '#lib/protocol/lanes';
import type { LiveFrame, LiveProbe, LiveScale } from '#lib/protocol/live';
import { as } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import { milliCelsius } from '#lib/units/temperature';
import type { BatchState, Entry, Realm } from '#lib/work/batch/index';
import { PRECAUTIONS } from '#lib/work/batch/index';
import { COMPUTED } from './computed';
import { APART, BEFORE_LYE, UNSURE } from './expected';
import { CALM_WAYS, LYE_WAYS, RED_WAYS, UNSOLVED_WAYS, WAITING_WAYS } from './ways';
import { MOULD_CUE, PART_CUE, PATTERNS_CUE, SEIZING_CUE, swirled, WHICH_CUE, wrongBatter } from './pours';
import { BatchRig, changed, FINE, MAIN, planOf } from '#tests/support/batch';
import { twoParts } from '#tests/support/pouring';

/** One state of the bench as the server would show it: the record so far, and the live frame. */
export interface Scene {
  readonly realm: Realm;
  readonly role: 'maker' | 'watcher';
  readonly lease: LeaseView;
  readonly entries: readonly Entry[];
  readonly frame: Omit<LiveFrame, 'boot' | 'n' | 'at' | 'merged'>;
  /** At this moment of the server's clock, ms. */
  readonly forecast?: (at: number) => ForecastLane;
}

export const scale = (change: Partial<LiveScale> = {}): LiveScale => ({
  id: MAIN,
  role: 'main',
  name: 'big scale',
  link: 'live',
  failure: null,
  freshness: 'fresh',
  age: 100,
  gross: 0,
  motion: 'stable',
  range: 'in',
  unit: 'g',
  division: 100,
  last: { gross: 0, age: 100 },
  suspect: null,
  nature: 'simulated',
  checked: true,
  ...change,
});
export const small = (change: Partial<LiveScale> = {}): LiveScale =>
  scale({ id: FINE, role: 'fine', name: 'small scale', division: 10, checked: false, ...change });

export const probe = (use: LiveProbe['use'], degrees: number | null, change: Partial<LiveProbe> = {}): LiveProbe => ({
  use,
  correction: null,
  name: `${use} probe`,
  link: 'live',
  freshness: degrees === null ? 'lost' : 'fresh',
  age: 400,
  value: degrees === null ? null : milliCelsius(Math.round(degrees * 1000)),
  suspect: null,
  last: null,
  ...change,
});

const LEADS: LeaseView = { holder: 'me', mine: true, label: 'screen 10:42', lostForMs: null };

const card = (code: string, params: Card['params'] = {}, change: Partial<Card> = {}): Card => ({
  code,
  params,
  hold: true,
  enabled: true,
  why: null,
  ...change,
});

interface Parts {
  readonly batch?: BatchRig | null;
  readonly cue?: Partial<BenchCue>;
  readonly scales?: readonly LiveScale[];
  readonly probes?: readonly LiveProbe[];
  readonly alarms?: LiveFrame['alarms'];
  readonly lease?: LeaseView;
  readonly realm?: Realm;
  readonly role?: Scene['role'];
}

const scene = ({
  batch = null,
  cue = {},
  scales,
  probes,
  alarms = [],
  lease = LEADS,
  realm = 'practice',
  role = 'maker',
}: Parts): Scene => ({
  realm,
  role,
  lease,
  entries: (batch?.entries ?? []).map((entry) => ({ ...entry, realm })),
  frame: {
    scales: scales ?? [scale(), small()],
    probes: probes ?? [probe('lye', null), probe('oils', 45.3), probe('room', 20.4)],
    cue: { ...IDLE_CUE, ...cue },
    alarms,
  },
});

/** A batch of alder and oat with every line before `line` weighed, and its vessel standing where `set` asks for it. */
const upTo = (line: string, set = true, plan = planOf('alder-and-oat')): BatchRig => {
  const rig = new BatchRig().start(plan).weighAll(line);
  if (set) {
    if (rig.line(line).plan.material.class === 'hydroxide') rig.gate(line);
    const done = rig.setVessel(line);
    if (!done.ok) throw new Error(done.refusal.code);
  }
  return rig;
};

/** The pour of a line with `net` grams in, on the scale its plan asks for. */
const pouring = (
  line: string,
  net: number | null,
  cue: Partial<BenchCue>,
  parts: Omit<Parts, 'cue' | 'batch'> = {},
  plan = planOf('alder-and-oat'),
): Scene => {
  const batch = upTo(line, true, plan);
  const { plan: planned, actual } = batch.line(line);
  const poured = net === null ? null : Math.round(net * 1000);
  const total = poured === null ? null : actual + poured;
  const main = planned.scale === 'main';
  const zero = batch.now.pans[main ? MAIN : FINE]?.zero ?? 0;
  const gross = poured === null ? null : zero + poured;
  const last = { gross: gross ?? zero + 212_600, age: gross === null ? 9_000 : 100 };
  const moving = cue.phase === 'pouring' ? ('moving' as const) : ('stable' as const);
  const lost = gross === null ? ({ freshness: 'lost', age: 9_000, link: 'waiting' } as const) : {};
  const here = { gross, last, motion: moving, ...lost };
  return scene({
    batch,
    scales: [main ? scale(here) : scale(), main ? small() : small(here)],
    ...parts,
    cue: {
      line: planned.id,
      vessel: planned.vessel,
      instrument: main ? MAIN : FINE,
      poured: poured === null ? null : mg(poured),
      total: total === null ? null : mg(total),
      left: total === null ? null : mg(planned.target - total),
      target: planned.target,
      tolerance: planned.tolerance,
      episode: 9,
      ...cue,
    },
  });
};

/** The pot with coconut, shea and olive in it, whose weight has changed since it was accepted. */
const questioned = (cue: Partial<BenchCue>): Scene => {
  const batch = upTo('rapeseed', false);
  const entry = batch.line('olive').contributions.at(-1)?.entry;
  if (entry === undefined) throw new Error('nothing was weighed');
  batch.must('question', { entry, why: 'shifted-up', now: mg(1_455_900) });
  return scene({
    batch,
    scales: [scale({ gross: 1_455_900 }), small()],
    cue: { line: as('olive'), vessel: as('oils-pot'), instrument: MAIN, ...cue },
  });
};

const before = (line: string, cue: Partial<BenchCue>, parts: Omit<Parts, 'cue' | 'batch'> = {}, set = false): Scene => {
  const batch = upTo(line, set);
  const { plan } = batch.line(line);
  return scene({
    batch,
    ...parts,
    cue: {
      line: plan.id,
      vessel: plan.vessel,
      instrument: plan.scale === 'main' ? MAIN : FINE,
      target: plan.target,
      tolerance: plan.tolerance,
      ...cue,
    },
  });
};

/** A line whose plan differs from the sample's, come to its turn. */
const beforeChanged = (line: string, change: Parameters<typeof changed>[2], cue: Partial<BenchCue>): Scene => {
  const batch = upTo(line, false, changed(planOf('alder-and-oat'), line, change));
  const { plan } = batch.line(line);
  return scene({
    batch,
    cue: {
      ...cue,
      line: plan.id,
      vessel: plan.vessel,
      instrument: MAIN,
      target: plan.target,
      tolerance: plan.tolerance,
    },
  });
};

const made = (
  lye: number | null,
  oils: number | null,
  cue: Partial<BenchCue>,
  holds: JoiningCue['holds'] = [],
  plan = planOf('alder-and-oat'),
): Scene => {
  const batch = new BatchRig().start(plan).weighAll().makeLye();
  const apart = lye === null || oils === null ? null : Math.round(Math.abs(lye - oils) * 1000);
  const joining: JoiningCue = {
    ready: holds.length === 0,
    holds,
    lye: lye === null ? null : milliCelsius(lye * 1000),
    oils: oils === null ? null : milliCelsius(oils * 1000),
    apart,
  };
  return scene({
    batch,
    probes: [probe('lye', lye, { correction: 400 }), probe('oils', oils), probe('room', 20.4)],
    cue: { phase: 'joining', joining, ...cue },
  });
};

const afterJoining = (cue: Partial<BenchCue>, batch = new BatchRig().start().weighAll().makeLye().join()): Scene =>
  scene({ batch, probes: [probe('lye', 42.8), probe('oils', 43.1)], cue });

const OVER_CARDS = (over: number, red: boolean): readonly Card[] => [
  card('carry-on', { over, red: red ? 1 : 0 }, { hold: red }),
  card('cross-out', { over }),
];
const say = (id: number, code: string, params: Card['params'] = {}) => ({ id, code, params });

/** Every state of the bench that a person can meet, by the name of its picture. */
export const SCENES = {
  idle: () => scene({ scales: [scale({ gross: 412_600 }), small()] }),
  'idle-real': () => scene({ realm: 'real', scales: [scale({ gross: 0, nature: 'serial' })] }),
  'waiting-vessel': () =>
    before('coconut', {
      phase: 'waiting-vessel',
      say: say(1, 'next-line', { material: 'Coconut oil', target: 280_000, vessel: 'oils pot', scale: 'big scale', lot: 'CO 26-07' }),
    }),
  'strange-vessel': () =>
    before(
      'coconut',
      {
        phase: 'strange-vessel',
        cards: [
          card('it-is-vessel', { vessel: 'oils pot', gross: 655_200 }),
          card('it-is-vessel', { vessel: 'lye jug', gross: 655_200 }, { enabled: false, why: 'too heavy for it' }),
        ],
      },
      { scales: [scale({ gross: 655_200 }), small()] },
    ),
  'settling-vessel': () =>
    before('coconut', { phase: 'settling-vessel', settle: 550 }, { scales: [scale({ gross: 642_500, motion: 'moving' }), small()] }),
  ready: () => pouring('olive', 0, { phase: 'ready' }),
  pouring: () => pouring('olive', 292.6, { phase: 'pouring', overshoot: mg(6_100) }),
  /** Of a computed plan: what the pot is stands under what comes next. */
  pot: () =>
    pouring(
      'olive',
      292.6,
      { phase: 'pouring', overshoot: mg(6_100) },
      { probes: [probe('lye', 20.6), probe('oils', 45.3), probe('room', 20.4)] },
      COMPUTED,
    ),
  'pot-over': () => pouring('rapeseed', 230.4, { phase: 'pouring', overshoot: mg(6_100) }, {}, COMPUTED),
  'ease-off': () => pouring('olive', 391.2, { phase: 'pouring', overshoot: mg(6_100), easeOff: true, say: say(2, 'ease-off') }),
  settling: () => pouring('olive', 399.2, { phase: 'settling', settle: 420 }),
  short: () => pouring('olive', 388.4, { phase: 'short', goOn: { code: 'enough', hold: true }, say: say(3, 'short', { left: 11_600 }) }),
  offer: () =>
    pouring('olive', 399.2, {
      phase: 'offer',
      acceptsIn: { left: 900, of: 1500 },
      goOn: { code: 'accept', hold: false },
      say: say(4, 'offer', { material: 'Olive oil', net: 399_200 }),
    }),
  ask: () =>
    pouring('olive', 400.4, {
      phase: 'ask',
      doubts: ['step-up'],
      cards: [card('lift-check', {}, { hold: false })],
      goOn: { code: 'accept', hold: false },
    }),
  'over-calm': () =>
    pouring(
      'olive',
      408.4,
      { phase: 'over', cards: OVER_CARDS(8_400, false) },
      { alarms: [{ code: 'over-pour', silenced: false, line: as('olive'), detail: '' }] },
    ),
  'over-red': () =>
    pouring(
      'olive',
      424.8,
      { phase: 'over', red: true, cards: OVER_CARDS(24_800, true), selected: 0 },
      { alarms: [{ code: 'over-pour-red', silenced: false, line: as('olive'), detail: '' }] },
    ),
  'ways-red': () =>
    pouring(
      'olive',
      424.8,
      { phase: 'over', red: true, cards: RED_WAYS, selected: 0, goOn: { code: 'next-card', hold: false } },
      { alarms: [{ code: 'over-pour-red', silenced: false, line: as('olive'), detail: '' }] },
    ),
  'ways-calm': () =>
    pouring(
      'olive',
      408.4,
      { phase: 'over', cards: CALM_WAYS, goOn: { code: 'next-card', hold: false } },
      { alarms: [{ code: 'over-pour', silenced: false, line: as('olive'), detail: '' }] },
    ),
  'ways-unsolved': () => pouring('olive', 424.8, { phase: 'over', red: true, cards: UNSOLVED_WAYS }),
  'ways-lye': () => before('rapeseed', { phase: 'remedy', cards: LYE_WAYS }),
  /** The reading came late: nothing to take, and nothing that moved. */
  'ways-late': () =>
    pouring('olive', 424.8, { phase: 'over', red: true, block: 'late', cards: WAITING_WAYS, poured: null, total: null, left: null }),
  'ways-wrong': () => before('rapeseed', { phase: 'remedy', cards: RED_WAYS }),
  'take-out': () =>
    before('olive', {
      phase: 'take-out',
      vessel: as('oils-pot'),
      target: mg(12_000),
      tolerance: mg(200),
      poured: mg(7_400),
      total: mg(7_400),
      left: mg(4_600),
      goOn: { code: 'taken-out', hold: true },
      say: say(7, 'take-out', { vessel: 'oils pot', mass: 12_000, kind: 'lift-out' }),
    }),
  'late-pour': () =>
    pouring('olive', 380.2, {
      phase: 'pouring',
      block: 'late',
      holdSound: true,
      poured: null,
      total: null,
      left: null,
      overshoot: mg(6_100),
    }),
  lift: () => before('alder-scent', { phase: 'lift', vessel: as('oils-pot'), say: say(5, 'lift', { vessel: 'oils pot' }) }),
  question: () =>
    questioned({
      phase: 'question',
      cards: [card('keep-weight', { was: 1_442_500, now: 1_455_900 }), card('strike-weight', { was: 1_442_500, now: 1_455_900 })],
    }),
  'no-weight': () =>
    pouring(
      'olive',
      null,
      { phase: 'no-weight', block: 'lost' },
      { alarms: [{ code: 'scale-lost', silenced: false, line: null, detail: '' }] },
    ),
  'port-busy': () =>
    pouring(
      'olive',
      null,
      { phase: 'no-weight', block: 'lost' },
      { scales: [scale({ gross: null, freshness: 'lost', age: 9_000, link: 'waiting', failure: 'busy' }), small()] },
    ),
  'unit-changed': () => pouring('olive', null, { phase: 'blocked', block: 'unit-changed', goOn: { code: 'unit-noted', hold: false } }),
  'probe-leaning': () => pouring('olive', 399.2, { phase: 'blocked', block: 'probe-leaning', goOn: { code: 'probe-out', hold: false } }),
  'small-scale': () => pouring('alder-scent', 18.74, { phase: 'pouring', overshoot: mg(120) }),
  gate: () =>
    before('soda', {
      phase: 'gate',
      gate: { gate: 'hydroxide', items: PRECAUTIONS.hydroxide },
      goOn: { code: 'confirm-gate', hold: true },
    }),
  'choose-lot': () => beforeChanged('soda', { lot: null }, { phase: 'choose-lot', block: 'no-lot' }),
  'by-hand': () => beforeChanged('clay', { mode: 'by-hand' }, { phase: 'by-hand' }),
  'gate-cold': () => ({
    ...before('soda', {
      phase: 'gate',
      line: null,
      gate: { gate: 'cold-liquid', items: PRECAUTIONS['cold-liquid'] },
      goOn: { code: 'confirm-gate', hold: true },
    }),
    forecast: BEFORE_LYE,
  }),
  'hydroxide-pouring': () => pouring('soda', 96.4, { phase: 'pouring', overshoot: mg(200) }),
  'hydroxide-hold': () =>
    pouring('soda', 140.6, {
      phase: 'hold',
      goOn: { code: 'accept-held', hold: true },
      say: say(6, 'hold', { material: 'Sodium hydroxide', net: 140_600 }),
    }),
  resume: () =>
    before(
      'olive',
      {
        phase: 'resume',
        cards: [card('resume-as-recorded'), card('resume-poured-more'), card('resume-emptied'), card('resume-unsure')],
        selected: 0,
      },
      {},
      true,
    ),
  away: () =>
    pouring('olive', null, { phase: 'away', goOn: { code: 'come-back', hold: false } }, { scales: [scale({ gross: 1_355_000 }), small()] }),
  parked: () =>
    scene({
      batch: (() => {
        const rig = upTo('olive');
        rig.must('park', { reason: 'the post' });
        return rig;
      })(),
    }),
  temperatures: () => ({
    ...made(79.6, 45.3, { phase: 'temperatures' }, [
      { reason: 'lye-too-hot', level: 'hold', overridable: true, overridden: false, value: 79_600, limit: 50_000 },
    ]),
    forecast: APART,
  }),
  'pot-waits': () =>
    made(
      42.1,
      43.6,
      { phase: 'temperatures' },
      [
        { reason: 'may-be-lye-heavy', level: 'hold', overridable: true, overridden: false, value: -4_200, limit: 0 },
        { reason: 'oils-too-hot', level: 'hold', overridable: true, overridden: true, value: 52_600, limit: 50_000 },
      ],
      COMPUTED,
    ),
  'joining-held': () =>
    made(
      38.4,
      47.9,
      {
        cards: [card('override', { reason: 'apart', value: 9_500, limit: 6_000 }), card('join', {}, { enabled: false, why: 'apart' })],
      },
      [{ reason: 'apart', level: 'hold', overridable: true, overridden: false, value: 9_500, limit: 6_000 }],
    ),
  joining: () => ({ ...made(42.1, 43.6, { cards: [card('join')] }), forecast: UNSURE }),
  trace: () =>
    afterJoining({
      phase: 'trace',
      cards: [
        card('trace-thin', {}, { hold: false }),
        card('trace-medium', {}, { hold: false }),
        card('trace-thick', {}, { hold: false }),
        card('trace-wrong', {}, { hold: false }),
      ],
    }),
  moulds: () => afterJoining({ phase: 'pouring-moulds' }),
  portion: () =>
    afterJoining({ phase: 'pouring-moulds', portion: { at: 'offer', mass: mg(512_300) }, goOn: { code: 'take-portion', hold: false } }),
  patterns: () =>
    made(
      42.1,
      43.6,
      PATTERNS_CUE,
      [{ reason: 'pattern-unnamed', level: 'hold', overridable: false, overridden: false, value: 1, limit: 0 }],
      twoParts(),
    ),
  'batter-wrong': () => afterJoining(WHICH_CUE, wrongBatter()),
  seizing: () => afterJoining(SEIZING_CUE, wrongBatter('seizing')),
  'parting-off': () => afterJoining(PART_CUE, swirled(false)),
  'mould-by-turns': () => afterJoining(MOULD_CUE, swirled(true)),
  watching: () => ({
    ...pouring('olive', 292.6, { phase: 'pouring', overshoot: mg(6_100) }),
    lease: { holder: 'other', mine: false, label: 'tablet 10:42', lostForMs: null },
  }),
  'watching-lost': () => ({
    ...pouring('olive', 292.6, { phase: 'pouring' }),
    lease: { holder: 'other', mine: false, label: 'tablet 10:42', lostForMs: 12_000 },
  }),
  elsewhere: () => ({
    ...pouring('olive', 292.6, { phase: 'pouring' }),
    role: 'watcher' as const,
    lease: { holder: 'other', mine: false, label: 'screen 10:42', lostForMs: null },
  }),
  test: () => scene({ realm: 'test', scales: [scale({ gross: 412_600, nature: 'pty' })] }),
} satisfies Record<string, () => Scene>;

export type SceneName = keyof typeof SCENES;

/** The batch a scene's record folds to, for tests that compare. */
export const batchOf = (rig: BatchRig): BatchState => rig.now;
