import type { BatchPage, BatchListRow } from '#lib/protocol/http';
import type { ProbeUse } from '#lib/measure/reading';
import { as } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import { celsius } from '#lib/units/temperature';
import type { CommandBodies, CommandHead, CommandKind, Entry, Realm, TemperatureCourse, Weighed } from '#lib/work/batch/index';
import { review } from '#lib/work/batch/review';
import { leftOver } from '#lib/work/batch/pouring/amounts';
import { mouldsIn } from '#lib/work/batch/pouring/places';
import { BatchRig, FINE, lineId, MAIN, planOf } from '#tests/support/batch';
import { fill, setDown, weighLeft } from '#tests/support/pouring';
import { COMPUTED } from './computed';

/** Tuesday 14 April 2026, 13:02 at the bench. */
const BEGAN = Date.UTC(2026, 3, 14, 11, 2);
const BETWEEN_MS = 41_000;

/** A rig whose acts lie so far apart as hands need for them. */
class Unhurried extends BatchRig {
  override command<K extends CommandKind>(kind: K, body: CommandBodies[K], head: Partial<CommandHead> = {}) {
    this.mono += BETWEEN_MS;
    return super.command(kind, body, { wall: BEGAN + this.mono, ...head });
  }

  /** The small scale states hundredths of a gram. */
  override weighed(id: string, netGrams: number): Weighed {
    const weighed = super.weighed(id, netGrams);
    return weighed.instrument === FINE ? { ...weighed, step: mg(10), text: (weighed.gross / 1000).toFixed(2) } : weighed;
  }
}

/** Every line a little off, all of them within tolerance. */
const OFF: Readonly<Record<string, number>> = {
  coconut: 0.9,
  shea: -0.7,
  olive: 1.4,
  rapeseed: -1.1,
  'alder-scent': 0.04,
  oat: -0.12,
  clay: 0.1,
  water: 1.8,
  soda: -0.1,
};

const weighOn = (rig: Unhurried, until?: string): Unhurried => {
  for (let open = rig.now.open; open !== null && open !== until; open = rig.now.open) {
    const { plan, actual } = rig.line(open);
    const done = rig.weigh(open, (plan.target - actual) / 1000 + (OFF[open] ?? 0));
    if (!done.ok) throw new Error(`${open}: ${done.refusal.code}`);
    const next = rig.now.open;
    if (next === null || rig.line(next).plan.vessel !== plan.vessel) rig.lift(open);
  }
  return rig;
};

const begun = (realm: Realm, plan = planOf('alder-and-oat')): Unhurried => {
  const rig = new Unhurried();
  rig.more = { scales: [MAIN, FINE] };
  rig.must('start', { mark: '26-11', plan, realm, bench: 'bench 1' });
  return rig;
};

const note = (rig: Unhurried, use: ProbeUse, degrees: number): void => {
  rig.must(
    'note-temperature',
    { use, value: celsius(degrees), why: 'asked', source: { instrument: as(`probe-${use}`), raw: '' } },
    { role: 'program', via: 'bench' },
  );
};

/** A check, over-pours answered both ways, a target that moved, a stop in between, a weight by hand. */
const told = (): Unhurried => {
  const rig = begun('real');
  rig.must('check-scale', { instrument: MAIN, nominal: grams(200) }, { observation: rig.seen(rig.settle(MAIN, grams(200.2))) });
  rig.setVessel('coconut');
  rig.accept('coconut', 290.4);
  rig.must('answer-over', { line: lineId('coconut'), choice: 'cross-out', held: true });
  rig.accept('coconut', 280.9);
  rig.weigh('shea', 119.3);
  rig.weigh('olive', 412.6);
  rig.must('answer-over', { line: lineId('olive'), choice: 'carry-on', held: true });
  rig.must('replan', { lines: [{ ...rig.line('rapeseed').plan, target: grams(187.4) }], reason: 'olive 12.6 g over' });
  rig.must('lose-instrument', { instrument: MAIN, last: grams(1455.9) }, { role: 'program', via: 'bench' });
  rig.boot = as('boot-2');
  rig.episode = 0;
  rig.must('resume', { contents: 'as-recorded', note: 'power cut', held: true });
  rig.must('regain-instrument', { instrument: MAIN }, { role: 'program', via: 'bench' });
  weighOn(rig, 'oat');
  rig.must('type-weight', {
    line: lineId('oat'),
    typed: { net: grams(15.2), text: '15.2', unit: 'g' },
    readBack: true,
    part: false,
  });
  weighOn(rig);
  return rig;
};

const foretoldWay = (until: number, way: (after: number) => number) =>
  Array.from({ length: until / 60 }, (_, i) => {
    const middle = way(120 * i);
    return { after: 120 * i, low: celsius(middle - 0.3 - i / 8), middle: celsius(middle), high: celsius(middle + 0.3 + i / 8) };
  });

/** Twenty-six minutes, the probe of the oils away for three of them. */
const COURSE: TemperatureCourse = {
  everyS: 60,
  lye: Array.from({ length: 27 }, (_, minute) => celsius(Math.round(10 * (21 + 57.4 * Math.exp(-minute / 45))) / 10)),
  oils: Array.from({ length: 27 }, (_, minute) => (minute > 8 && minute < 12 ? null : celsius(Math.round(10 * (47 - minute / 9)) / 10))),
  marks: [{ of: 'lye', turn: 'slower', since: 240, noticed: 540 }],
  foretold: {
    at: 720,
    meets: { low: 660, middle: 870, high: 1_170 },
    lye: foretoldWay(720, (after) => 21 + 57.4 * Math.exp(-(12 + after / 60) / 43)),
    oils: foretoldWay(720, (after) => 45.7 - after / 600),
  },
};

const joined = (rig: Unhurried): Unhurried => {
  rig.makeLye();
  note(rig, 'lye', 78.4);
  note(rig, 'oils', 44.6);
  rig.lye = celsius(53.2);
  rig.oils = celsius(44.1);
  rig.must('override', { reason: 'lye-too-hot', held: true, note: 'a warm day' });
  rig.must('override', { reason: 'apart', held: true, note: '' });
  rig.must('join', { held: true, course: COURSE });
  rig.must('stamp-trace', { mark: 'medium', note: '' }, { observation: rig.seen(null, { batter: celsius(47.3) }) });
  const pot = rig.vessel('oils-pot').contents;
  const log = grams(960);
  rig.must('split', {
    vessel: as('oils-pot'),
    parts: [
      { name: 'Log', mass: log },
      { name: 'Tray of six', mass: grams(Math.floor((pot - log) / 1000) - 8) },
    ],
  });
  rig.must('close', {});
  return rig;
};

/** Each mould of the plan filled from the pot, what stayed behind weighed, and a picture asked for. */
const intoMoulds = (rig: Unhurried): void => {
  const moulds = mouldsIn(rig.now);
  if (moulds.length === 0) return;
  const each = Math.floor(leftOver(rig.now) / 1_000 / moulds.length) - 9;
  for (const { n } of moulds) {
    setDown(rig, `mould:${n}`, 356_400);
    fill(rig, n, each, ['pot']);
    rig.must('ask-photo', { of: 'top', mould: n });
  }
  weighLeft(rig, 'pot', 8.7);
};

const plain = (plan = planOf('alder-and-oat')): Unhurried => {
  const rig = weighOn(begun('practice', plan));
  rig.makeLye();
  rig.lye = celsius(42.1);
  rig.oils = celsius(43.6);
  rig.must('join', { held: true });
  rig.must('stamp-trace', { mark: 'thin', note: '' });
  intoMoulds(rig);
  rig.must('close', {});
  return rig;
};

const parked = (): Unhurried => {
  const rig = weighOn(begun('practice'), 'olive');
  rig.must('park', { reason: 'out of olive oil' });
  return rig;
};
const stopped = (): Unhurried => {
  const rig = weighOn(begun('practice'), 'rapeseed');
  rig.must('abandon', { reason: 'glass in the pot', held: true });
  return rig;
};
const midway = (): Unhurried => {
  const rig = begun('practice');
  rig.weigh('coconut', 286.4);
  rig.must('answer-over', { line: lineId('coconut'), choice: 'carry-on', held: false });
  return weighOn(rig, 'alder-scent');
};

/** Batches by what happened in them, as entries from their start. */
export const BATCHES = {
  eventful: () => joined(told()).entries,
  plain: () => plain().entries,
  poured: () => plain(COMPUTED).entries,
  parked: () => parked().entries,
  stopped: () => stopped().entries,
  midway: () => midway().entries,
  weighed: () => weighOn(midway()).makeLye().entries,
  begun: () => begun('practice').entries,
} satisfies Record<string, () => readonly Entry[]>;
export type BatchName = keyof typeof BATCHES;

const FOOT = { seq: 1_214, link: 'a79688019573ac65a99727ef2294a809f0ff00eeba865483cfde833d54b397cd' };
/** What the server answers for one of them. */
export const pageOf = (name: BatchName): BatchPage => {
  const entries = BATCHES[name]();
  return { ...review(entries), people: {}, record: { entries: entries.length, ...FOOT } };
};

/** Rows for a list, newest first. */
export const rowsOf = (...names: readonly BatchName[]): readonly BatchListRow[] =>
  names.map((name, at) => {
    const { summary } = pageOf(name);
    const day = 86_400_000 * at;
    return {
      ...summary,
      id: name,
      mark: `26-${names.length - at + 8}`,
      startedWall: summary.startedWall - day,
      endedWall: summary.endedWall === null ? null : summary.endedWall - day,
    };
  });
