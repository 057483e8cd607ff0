import fc from '#tests/support/property';
import { as } from '#lib/units/id';
import type { BootId, EntryId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import { milliCelsius } from '#lib/units/temperature';
import { PRECAUTIONS } from '#lib/work/batch/index';
import { own } from '#lib/work/batch/own';
import { potOf } from '#lib/work/batch/poured/pot';
import { benchOf } from '#lib/work/batch/remedy/bench';
import { carryOnCard, stopCard } from '#lib/work/batch/remedy/card';
import { NO_FACTS } from '#lib/work/batch/remedy/index';
import type { RemedyAct, RemedyCard } from '#lib/work/batch/remedy/index';
import type { Amended, BatchState, CommandBodies, CommandHead, CommandKind, HoldReason, Weighed } from '#lib/work/batch/index';
import { FINE, MAIN, type BatchRig } from '#tests/support/batch';
import { nameAll, POUR_ACTS, pourOn } from '#tests/support/pouring';

/** One random thing that a person, the program or a watcher wants; numbers and picks are spent on whatever the act needs. */
export interface Act {
  readonly what: keyof typeof ACTS;
  readonly role: CommandHead['role'];
  readonly pick: readonly number[];
  readonly mass: number;
  readonly held: boolean;
  readonly flag: boolean;
}

/** Ids no plan has, and some that every object has. */
const STRANGE = ['', 'constructor', '__proto__', 'toString', 'nobody'];

const at = <T>(list: readonly T[], n: number): T | undefined => (list.length === 0 ? undefined : list[n % list.length]);

/** What the act is made of, against the batch as it is: mostly right, sometimes of another line or vessel, sometimes nonsense. */
const parts = (rig: BatchRig, act: Act) => {
  const batch = rig.now;
  const [a = 0, b = 0, c = 0] = act.pick;
  const lines = Object.keys(batch.lines);
  const vessels = Object.keys(batch.vessels);
  const stray = a % 11 === 0;
  const line = as<never>(stray ? (at([...lines, ...STRANGE], b) ?? '') : (batch.open ?? at(lines, b) ?? ''));
  const plan = batch.lines[line]?.plan;
  const vessel = as<never>(stray || plan === undefined ? (at([...vessels, ...STRANGE], c) ?? '') : plan.vessel);
  const ids = Object.values(batch.lines).flatMap(({ contributions }) => contributions.map((one) => one.entry));
  const entry = as<EntryId>(a % 7 === 0 ? (at(STRANGE, b) ?? '') : (ids.at(-1 - (b % Math.max(1, Math.min(3, ids.length)))) ?? ''));
  const scale = plan?.scale === 'fine' ? FINE : MAIN;
  return { batch, a, b, c, line, plan, vessel, entry, scale, mass: mg(act.mass) };
};

type Parts = ReturnType<typeof parts>;

/** Carrying on as a solver would offer it, with something to take out besides. */
const carryOnNow = (batch: BatchState, acts: readonly RemedyAct[]): RemedyCard => {
  const read = potOf(batch);
  if (read.kind === 'pot') return carryOnCard(benchOf(batch, read.pot, NO_FACTS), acts);
  return { ...stopCard(false), id: 'carry-on', kind: 'carry-on', acts, cautions: [] };
};

/** A settled weight on the pan of the line, about what is missing; sometimes an episode that was used up. */
const weighed = (rig: BatchRig, act: Act, { plan, scale, batch, a, line }: Parts): Weighed => {
  const pan = batch.pans[scale];
  const missing = plan === undefined ? act.mass : plan.target - (batch.lines[line]?.actual ?? 0);
  const spread = act.flag ? 0 : Math.trunc(act.mass / 50) - 5_000;
  const net = a % 5 === 0 ? act.mass : missing + spread;
  const sign = plan?.mode === 'loss' ? -1 : 1;
  const zero = pan?.zero ?? mg(0);
  const settled = rig.settle(scale, mg(zero + sign * net));
  const episode = a % 6 === 0 ? Math.max(0, settled.episode - 1 - (a % 3)) : settled.episode;
  return {
    gross: settled.gross,
    zero,
    net: mg(net),
    text: '',
    unit: 'g',
    step: mg(100),
    raw: '',
    instrument: scale,
    check: null,
    episode,
    strip: null,
  };
};

const REASONS: readonly HoldReason[] = ['lye-too-hot', 'lye-too-cold', 'oils-too-hot', 'oils-near-setting', 'apart', 'temperature-unknown'];

type Want<K extends CommandKind = CommandKind> = readonly [K, CommandBodies[K], Partial<CommandHead>?];
const want = <K extends CommandKind>(kind: K, body: CommandBodies[K], head: Partial<CommandHead> = {}): Want => [kind, body, head] as Want;

const ofScale = (rig: BatchRig, { instrument, gross, episode }: Pick<Weighed, 'instrument' | 'gross' | 'episode'>) => ({
  observation: rig.seen({ instrument, gross, episode }),
});

const NOTHING_RIGHT = { what: 'other', entry: null, line: null, of: 'where it was made', was: '', why: 'left out' } as const;

/** A weight, a lot, a temperature or words that may not be in the record at all. */
const amendment = (act: Act, { a, entry }: Parts): Amended => {
  const said = {
    entry,
    line: null,
    of: act.held ? 'lye' : 'oils',
    was: 'what the screen says counts for nothing',
    why: a % 5 === 0 ? '' : 'misread',
  };
  if (a % 6 === 0) return { ...said, what: 'weight', is: String(act.mass) };
  if (a % 6 === 1) return { ...said, what: 'lot', is: 'CO 1', lot: { id: as('lot-1'), mark: 'CO 1' } };
  return a % 6 === 2 ? { ...said, what: 'temperature', is: '41000' } : { ...said, what: 'other', is: 'the blue jug' };
};

/** Every kind of command but `start`, and some ordinary progress so that late states are reached. */
const ACTS = {
  accept: (rig: BatchRig, act: Act, p: Parts) => {
    const one = weighed(rig, act, p);
    const how = act.role === 'program' ? 'by-itself' : act.held ? 'held' : 'go-on';
    const vessel = p.batch.pans[p.scale]?.vessel ?? p.vessel;
    return want(
      'accept',
      { line: p.line, vessel, weighed: one, how, part: act.flag && p.b % 4 === 0, shortIsFine: p.b % 9 === 0 },
      ofScale(rig, one),
    );
  },
  'set-vessel': (rig: BatchRig, act: Act, p: Parts) => {
    const held = p.batch.vessels[p.vessel];
    const expected = held?.standing?.gross ?? (held?.empty ?? 100_000) + (held?.contents ?? 0);
    const one = rig.settle(p.scale, mg(expected + (act.flag ? 0 : act.mass - 250_000)));
    return want('set-vessel', { line: p.line, vessel: p.vessel, ...one }, ofScale(rig, one));
  },
  'type-weight': (_rig: BatchRig, act: Act, p: Parts) => {
    const net = act.flag && p.plan !== undefined ? p.plan.target : p.mass;
    const typed = { net, text: String(net), unit: 'mg' } as const;
    return want('type-weight', {
      line: p.line,
      typed,
      readBack: p.b % 5 !== 0,
      part: p.c % 3 === 0,
      held: act.held,
      shortIsFine: p.c % 4 === 0,
    });
  },
  'weigh-back': (rig: BatchRig, act: Act, p: Parts) => {
    const zero = p.batch.vessels[p.vessel]?.empty ?? mg(0);
    const net = mg(act.mass % 3_000);
    const one = rig.settle(p.scale, mg(zero + net));
    const whole: Weighed = { ...one, zero, net, text: '', unit: 'g', step: mg(100), raw: '', check: null, strip: null };
    return want('weigh-back', { line: p.line, vessel: p.vessel, weighed: whole }, ofScale(rig, one));
  },
  lift: (_rig: BatchRig, act: Act, p: Parts) => {
    const vessel = at(Object.values(p.batch.pans), p.b)?.vessel ?? p.vessel;
    return want('lift', { vessel, gross: mg((p.batch.vessels[vessel]?.standing?.gross ?? 0) + (act.flag ? 0 : act.mass % 9_000)) });
  },
  question: (_rig: BatchRig, _act: Act, p: Parts) =>
    want('question', { entry: p.entry, why: p.b % 2 === 0 ? 'changed-on-pan' : 'unlike-on-return', now: p.mass }),
  'answer-question': (_rig: BatchRig, act: Act, p: Parts) =>
    want('answer-question', { entry: p.batch.question?.entry ?? p.entry, answer: act.flag ? 'keep' : 'strike', held: act.held }),
  'answer-over': (_rig: BatchRig, act: Act, p: Parts) =>
    want('answer-over', { line: p.batch.over?.line ?? p.line, choice: act.flag ? 'carry-on' : 'cross-out', held: act.held }),
  strike: (_rig: BatchRig, act: Act, p: Parts) => {
    const reason = at(['undone', 'mistyped', 'wrong-material', 'over-poured', 'other'] as const, p.c) ?? 'undone';
    return want('strike', { entry: p.entry, reason, note: act.flag ? 'so' : '', held: act.held });
  },
  replan: (_rig: BatchRig, act: Act, p: Parts) => {
    const plans =
      p.plan === undefined ? [] : [{ ...p.plan, target: mg(Math.max(1, p.plan.target + (act.mass % 40_000) - 20_000)), upper: null }];
    return want('replan', { lines: plans, reason: act.flag ? 'remedy' : ' ' });
  },
  'choose-lot': (_rig: BatchRig, _act: Act, p: Parts) => want('choose-lot', { line: p.line, lot: { id: as('lot-x'), mark: 'X 1' } }),
  'confirm-gate': (_rig: BatchRig, act: Act, p: Parts) => {
    const gate = p.b % 3 === 0 ? 'cold-liquid' : 'hydroxide';
    return want('confirm-gate', { gate, line: gate === 'hydroxide' ? p.line : null, items: PRECAUTIONS[gate], held: act.held || act.flag });
  },
  move: (_rig: BatchRig, act: Act, p: Parts) => {
    const to = as<never>(at(Object.keys(p.batch.vessels), p.b) ?? '');
    const all = p.batch.vessels[p.vessel]?.contents ?? mg(0);
    const residue = act.flag ? mg(Math.trunc(all / 10)) : null;
    return want('move', { from: p.vessel, to, mass: mg(all - (residue ?? 0)), residue });
  },
  withdraw: (_rig: BatchRig, act: Act, p: Parts) => {
    const filled = at(
      Object.values(p.batch.vessels).filter(({ contents }) => contents > 0),
      p.c,
    );
    return want('withdraw', { vessel: filled?.plan.id ?? p.vessel, mass: mg(act.mass % 20_000), to: act.flag ? 'waste' : 'bottle' });
  },
  lose: (_rig: BatchRig, act: Act, p: Parts) => {
    const filled = at(
      Object.values(p.batch.vessels).filter(({ contents }) => contents > 0),
      p.c,
    );
    return want('lose', {
      vessel: filled?.plan.id ?? p.vessel,
      mass: mg(act.mass % 9_000),
      cause: act.flag ? 'spill' : 'evaporation',
      note: '',
    });
  },
  split: (_rig: BatchRig, act: Act, p: Parts) => {
    const joined = Object.values(p.batch.vessels).find(({ state }) => state === 'joined' || state === 'portioned');
    return want('split', {
      vessel: joined?.plan.id ?? p.vessel,
      parts: [
        { name: 'plain', mass: p.mass },
        { name: act.flag ? 'green' : ' ', mass: mg(act.mass % 7_000) },
      ],
    });
  },
  ...POUR_ACTS,
  'note-temperature': (_rig: BatchRig, act: Act, p: Parts) =>
    want('note-temperature', {
      use: act.flag ? 'lye' : 'oils',
      value: milliCelsius(act.mass % 200_000),
      why: 'asked',
      ...(act.role === 'program' ? { source: { instrument: p.scale, raw: '' } } : {}),
    }),
  dissolve: (_rig: BatchRig, act: Act, p: Parts) => {
    const of = (use: string) => Object.values(p.batch.vessels).find(({ plan }) => plan.use === use)?.plan.id ?? p.vessel;
    return want('dissolve', { vessel: of('hydroxide'), into: of('liquid'), held: act.held });
  },
  override: (_rig: BatchRig, act: Act, p: Parts) => want('override', { reason: at(REASONS, p.b) ?? 'apart', held: act.held, note: '' }),
  join: (rig: BatchRig, act: Act) => {
    rig.lye = act.flag ? milliCelsius(41_000) : act.mass % 2 === 0 ? null : milliCelsius(act.mass % 90_000);
    rig.oils = act.flag ? milliCelsius(42_000) : rig.oils;
    return want('join', { held: act.held });
  },
  'stamp-trace': (_rig: BatchRig, _act: Act, p: Parts) =>
    want('stamp-trace', { mark: at(['thin', 'medium', 'thick', 'wrong'] as const, p.b) ?? 'thin', note: '' }),
  'go-away': (rig: BatchRig, act: Act, p: Parts) => {
    const one = act.flag ? rig.settle(p.scale, p.mass) : null;
    return want('go-away', {}, { observation: rig.seen(one) });
  },
  'come-back': (_rig: BatchRig, act: Act, p: Parts) =>
    want('come-back', { gross: act.flag ? (p.batch.away?.gross ?? null) : p.mass, accept: act.held }),
  resume: (_rig: BatchRig, act: Act, p: Parts) =>
    want('resume', {
      contents: at(['as-recorded', 'poured-more', 'emptied', 'unsure'] as const, p.b) ?? 'unsure',
      note: '',
      held: act.held || act.flag,
    }),
  park: (_rig: BatchRig, act: Act) => want('park', { reason: act.flag ? 'doorbell' : '' }),
  'choose-remedy': (rig: BatchRig, act: Act, p: Parts) => {
    const held = own(own(p.batch.vessels, p.vessel)?.holds ?? {}, p.line) ?? 0;
    const out = {
      kind: 'lift-out',
      line: p.line,
      vessel: p.vessel,
      mass: mg(Math.min(held, act.mass)),
      to: 'bottle',
      caustic: false,
    } as const;
    const card = carryOnNow(p.batch, act.flag && out.mass > 0 ? [out] : []);
    const version = p.a % 5 === 0 ? rig.now.version - 1 : rig.now.version;
    return want('choose-remedy', { card, others: [stopCard(true)], solved: true, version, facts: NO_FACTS, held: act.held });
  },
  'do-remedy-act': (_rig: BatchRig, act: Act) => want('do-remedy-act', { weighed: null, held: act.held }),
  'state-wrong': (_rig: BatchRig, act: Act, p: Parts) => {
    const about = { line: p.line, vessel: p.vessel, held: act.held };
    if (p.b % 3 === 0) return want('state-wrong', { what: 'left-in-jug', ...about, mass: p.mass });
    const others = Object.keys(p.batch.lines);
    if (p.b % 3 === 1) return want('state-wrong', { what: 'material', ...about, mass: null, was: as<never>(at(others, p.c) ?? '') });
    return want('state-wrong', { what: 'spill', ...about, line: null, mass: p.mass });
  },
  'take-up': () => want('take-up', { note: '' }),
  abandon: (_rig: BatchRig, act: Act, p: Parts) => want('abandon', { reason: p.a % 4 === 0 && act.flag ? 'spoilt' : '', held: act.held }),
  close: () => want('close', {}),
  'check-scale': (rig: BatchRig, act: Act, p: Parts) => {
    const one = rig.settle(p.scale, p.mass);
    return want('check-scale', { instrument: p.scale, nominal: mg(act.mass + 100) }, ofScale(rig, one));
  },
  'raise-alarm': (_rig: BatchRig, act: Act) =>
    want('raise-alarm', { code: act.flag ? 'probe-lost' : 'apart', line: null, instrument: null, detail: '' }),
  'end-alarm': (_rig: BatchRig, act: Act) => want('end-alarm', { code: act.flag ? 'probe-lost' : 'over-pour' }),
  silence: (_rig: BatchRig, act: Act) => want('silence', { code: act.flag ? 'probe-lost' : 'over-pour' }),
  'lose-instrument': (_rig: BatchRig, act: Act, p: Parts) =>
    want('lose-instrument', { instrument: p.scale, last: act.flag ? p.mass : null }),
  'regain-instrument': (_rig: BatchRig, _act: Act, p: Parts) => want('regain-instrument', { instrument: p.scale }),
  'mark-clock-jump': (_rig: BatchRig, act: Act) => want('mark-clock-jump', { byMs: act.mass - 250_000, kind: 'wall-step' }),
  note: (_rig: BatchRig, act: Act) => want('note', { text: act.flag ? 'warm' : '' }),
  amend: (_rig: BatchRig, act: Act, p: Parts) => want('amend', amendment(act, p)),
  'keep-photo': (_rig: BatchRig, act: Act) => want('keep-photo', { sha256: act.flag ? 'a'.repeat(64) : 'none', of: 'top', caption: '' }),
} satisfies { [K in Exclude<CommandKind, 'start'>]: (rig: BatchRig, act: Act, p: Parts) => Want };

/** The command an act comes to now. */
export const wantOf = (rig: BatchRig, act: Act): Want => ACTS[act.what](rig, act, parts(rig, act));

/** Weighing happens most often, so that sequences get somewhere. */
const OFTEN: readonly Act['what'][] = [
  'accept',
  'set-vessel',
  'set-vessel',
  'lift',
  'confirm-gate',
  'answer-over',
  'answer-question',
  'dissolve',
  'join',
  'resume',
];

export const act: fc.Arbitrary<Act> = fc.record({
  what: fc.constantFrom(...(Object.keys(ACTS) as Act['what'][]), ...OFTEN, ...OFTEN),
  role: fc.constantFrom('maker', 'maker', 'maker', 'program', 'watcher'),
  pick: fc.array(fc.nat(10_000), { minLength: 3, maxLength: 3 }),
  mass: fc.nat(500_000),
  held: fc.boolean(),
  flag: fc.boolean(),
});

/** The next thing an orderly maker would do, or a restart of the server. */
export type Turn = { readonly turn: 'act'; readonly act: Act } | { readonly turn: 'progress' } | { readonly turn: 'restart' };

export const turn: fc.Arbitrary<Turn> = fc.oneof(
  { weight: 6, arbitrary: act.map((one) => ({ turn: 'act', act: one }) as const) },
  { weight: 6, arbitrary: fc.constant({ turn: 'progress' } as const) },
  { weight: 1, arbitrary: fc.constant({ turn: 'restart' } as const) },
);

/** Answers what is asked, else weighs, dissolves, joins; refusals are fine. */
export const progress = (rig: BatchRig): void => {
  const { now } = rig;
  if (now.endedWall !== null) return void rig.send('amend', { ...NOTHING_RIGHT, is: `bench ${now.version}` });
  if (now.status === 'parked') return void rig.send('take-up', { note: '' });
  if (rig.boot !== now.resumedInBoot) return void rig.send('resume', { contents: 'as-recorded', note: '', held: true });
  if (now.away !== null) return void rig.send('come-back', { gross: now.away.gross, accept: true });
  if (now.question !== null) return void rig.send('answer-question', { entry: now.question.entry, answer: 'keep', held: true });
  if (now.wrong !== null && now.over === null && now.open === null) {
    const about = { others: [], solved: true, version: now.version, facts: NO_FACTS, held: true };
    rig.send('choose-remedy', { card: carryOnNow(now, []), ...about });
  }
  if (now.toDo.length > 0) return void rig.send('do-remedy-act', { weighed: null, held: true });
  if (now.over !== null) {
    const on = rig.send('answer-over', { line: now.over.line, choice: 'carry-on', held: true });
    return on.ok ? undefined : void rig.send('answer-over', { line: now.over.line, choice: 'cross-out', held: true });
  }
  if (now.open !== null) return weighOpen(rig, now.open);
  if (now.status !== 'weighing') return now.trace.length === 0 ? void rig.send('stamp-trace', { mark: 'thin', note: '' }) : pourOn(rig);
  nameAll(rig);
  const of = (use: string) => Object.values(now.vessels).find(({ plan }) => plan.use === use)?.plan.id ?? as<never>('');
  rig.send('confirm-gate', { gate: 'cold-liquid', line: null, items: PRECAUTIONS['cold-liquid'], held: true });
  rig.send('dissolve', { vessel: of('hydroxide'), into: of('liquid'), held: true });
  rig.lye = milliCelsius(41_000);
  rig.oils = milliCelsius(42_000);
  rig.send('join', { held: true });
};

const weighOpen = (rig: BatchRig, open: NonNullable<BatchRig['now']['open']>): void => {
  const { plan, actual } = rig.line(open);
  if (plan.material.class === 'hydroxide') {
    rig.send('confirm-gate', { gate: 'hydroxide', line: open, items: PRECAUTIONS.hydroxide, held: true });
  }
  if (rig.now.pans[rig.scaleOf(open)]?.line !== open) rig.setVessel(open);
  const missing = (plan.target - actual) / 1_000;
  if (missing > 0) rig.accept(open, missing, { how: plan.material.class === 'hydroxide' ? 'held' : 'go-on' });
  else
    rig.send('type-weight', {
      line: open,
      typed: { net: mg(0), text: '0', unit: 'g' },
      readBack: true,
      part: false,
      held: true,
      shortIsFine: true,
    });
};

export const restart = (rig: BatchRig): void => {
  rig.boot = as<BootId>(`boot-${Number(rig.boot.split('-')[1]) + 1}`);
  rig.episode = 0;
};
