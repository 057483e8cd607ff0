import type { EntryId, InstrumentId, LineId } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import { celsius } from '#lib/units/temperature';
import type { MilliCelsius } from '#lib/units/temperature';
import { PRECAUTIONS } from '#lib/work/batch/index';
import type { Entry, LinePlan, Plan } from '#lib/work/batch/index';
import type { Random } from '../world/random';
import { eased, pourEnd } from './hand';
import type { Hand } from './hand';
import { pourMoulds } from './moulds';
import { Recorder, SCALES } from './recorder';
import type { Setting } from './recorder';
import { weighedAs } from './weighed';

/** What one batch of the past is made from. */
export interface PastBatch extends Setting {
  readonly mark: string;
  readonly plan: Plan;
  readonly hand: Hand;
  readonly random: Random;
  /** What a line's pours stray by more, in tolerances, by line. */
  readonly drift: Readonly<Record<string, number>>;
  /** What somebody wrote down of it. */
  readonly notes: readonly string[];
  /** Minutes of waiting for the meeting. */
  readonly waited: number;
  /** Whether probes heard each minute of it, which the joining keeps; without them somebody noted both vessels each minute. */
  readonly probes?: boolean;
  readonly checksScale: boolean;
}

export interface Made {
  readonly entries: readonly Entry[];
  readonly checks: Readonly<Record<string, EntryId>>;
}

/** One batch from its beginning to its close, as the bench would have entered it. */
export const makeBatch = (past: PastBatch): Made => {
  const recorder = new Recorder(past);
  recorder.do('start', { mark: past.mark, plan: past.plan, realm: past.realm, bench: 'bench' });
  recorder.wait(40_000);
  if (past.checksScale) checkScale(recorder, past.random);
  for (let open = recorder.state.open; open !== null; open = recorder.state.open) weighLine(recorder, past, open);
  meet(recorder, past);
  afterwards(recorder, past);
  return { entries: recorder.entries, checks: recorder.checks };
};

const checkScale = (recorder: Recorder, random: Random): void => {
  const [{ id, step }] = SCALES;
  recorder.settle(id, mg(Math.round((200_000 + 60 * random.gauss()) / step) * step));
  recorder.do('check-scale', { instrument: id, nominal: grams(200) });
  recorder.empty();
  recorder.wait(25_000);
};

const weighLine = (recorder: Recorder, past: PastBatch, id: LineId): void => {
  const { plan } = lineOf(recorder, id);
  const hydroxide = plan.material.class === 'hydroxide';
  const scale = SCALES.find(({ role }) => role === plan.scale) ?? SCALES[0];
  if (hydroxide) recorder.do('confirm-gate', { gate: 'hydroxide', line: id, items: PRECAUTIONS.hydroxide, held: true });
  setDown(recorder, plan, scale.id);
  recorder.wait(1000 * past.hand.pace * past.random.between(0.7, 1.5));
  pour(recorder, past, plan, scale);
  // Taken for an over-pour and crossed out: weighed again, the second time with care.
  if (recorder.state.open === id) {
    setDown(recorder, plan, scale.id);
    pour(recorder, { ...past, hand: { ...past.hand, over: 0 } }, plan, scale);
  }
  const next = recorder.state.open;
  recorder.wait(6_000);
  if (next === null || lineOf(recorder, next).plan.vessel !== plan.vessel) lift(recorder, plan);
};

type Scale = (typeof SCALES)[number];

const setDown = (recorder: Recorder, plan: LinePlan, instrument: InstrumentId): void => {
  if (recorder.state.pans[instrument]?.line === plan.id) return;
  const vessel = recorder.state.vessels[plan.vessel];
  const gross = vessel?.standing?.gross ?? mg((vessel?.empty ?? 0) + (vessel?.contents ?? 0));
  const episode = recorder.settle(instrument, gross);
  recorder.do('set-vessel', { line: plan.id, vessel: plan.vessel, instrument, gross, episode });
};

const pour = (recorder: Recorder, past: PastBatch, plan: LinePlan, { id: instrument, step }: Scale): void => {
  const { hand, random, drift } = past;
  const aim = plan.target - lineOf(recorder, plan.id).actual + pourEnd(hand, plan.tolerance, random, drift[plan.id] ?? 0);
  // Hydroxide and what has no computed limit is poured with care: an over-pour there would need a way out.
  const careful = plan.material.class === 'hydroxide' || plan.upper === null;
  const most = plan.target - lineOf(recorder, plan.id).actual + 0.9 * plan.tolerance;
  const net = mg(Math.max(step, Math.round((careful ? Math.min(aim, most) : aim) / step) * step));
  const zero = recorder.state.pans[instrument]?.zero ?? mg(0);
  const gross = mg(zero + (plan.mode === 'loss' ? -1 : 1) * net);
  const weighed = weighedAs(recorder, instrument, { gross, zero, net, step });
  const how = plan.material.class === 'hydroxide' ? 'held' : 'go-on';
  const said = plan.mode === 'gain' && net > 20_000 ? { eased: eased(hand, net, random) } : {};
  recorder.do('accept', { line: plan.id, vessel: plan.vessel, weighed, how, part: false, shortIsFine: true, ...said });
  const { over } = recorder.state;
  if (over === null) return;
  recorder.wait(12_000);
  const crossOut = { line: plan.id, choice: 'cross-out', held: true } as const;
  // What is mixed already stays in.
  const out = (random.next() < hand.crossesOut || over.red) && recorder.may('answer-over', crossOut);
  recorder.do('answer-over', out ? crossOut : { ...crossOut, choice: 'carry-on' });
};

const lift = (recorder: Recorder, plan: LinePlan): void => {
  recorder.empty();
  recorder.do('lift', { vessel: plan.vessel, gross: recorder.state.vessels[plan.vessel]?.standing?.gross ?? mg(0) });
  recorder.wait(8_000);
};

const lineOf = (recorder: Recorder, id: LineId) => {
  const line = recorder.state.lines[id];
  if (line === undefined) throw new Error(`no line ${id}`);
  return line;
};

/** Lye cools, oils wait, and what each minute showed is kept until they are joined. */
const meet = (recorder: Recorder, { random, waited, probes = false }: PastBatch): void => {
  recorder.do('confirm-gate', { gate: 'cold-liquid', line: null, items: PRECAUTIONS['cold-liquid'], held: true });
  const vesselOf = (use: string) => Object.values(recorder.state.vessels).find(({ plan }) => plan.use === use)?.plan.id;
  const [from, into] = [vesselOf('hydroxide'), vesselOf('liquid')];
  if (from !== undefined && into !== undefined) recorder.do('dissolve', { vessel: from, into, held: true });
  const [lyeEnd, oilsEnd] = [random.between(38.5, 43), random.between(39, 43.5)];
  const course = { everyS: 60, lye: [] as MilliCelsius[], oils: [] as MilliCelsius[] };
  for (let minute = 0; minute < waited; minute += 1) {
    recorder.wait(60_000);
    const left = waited - 1 - minute;
    const lye = tenths(lyeEnd + 0.62 * left + 0.12 * random.gauss());
    const oils = tenths(oilsEnd + 0.11 * left + 0.08 * random.gauss());
    recorder.temperatures = { ...recorder.temperatures, lye, oils };
    course.lye.push(lye);
    course.oils.push(oils);
    if (!probes) noteBoth(recorder, { lye, oils });
  }
  recorder.do('join', { held: true, ...(probes ? { course } : {}) });
};

const tenths = (degrees: number): MilliCelsius => celsius(Math.round(degrees * 10) / 10);

const noteBoth = (recorder: Recorder, values: Readonly<Record<'lye' | 'oils', MilliCelsius>>): void => {
  for (const use of ['lye', 'oils'] as const) {
    const source = { instrument: `probe-${use}` as InstrumentId, raw: '' };
    recorder.do('note-temperature', { use, value: values[use], why: 'asked', source }, 'program');
  }
};

const afterwards = (recorder: Recorder, { random, notes }: PastBatch): void => {
  recorder.temperatures = { lye: null, oils: null, batter: celsius(Math.round(10 * random.between(41, 46)) / 10) };
  recorder.wait(240_000);
  recorder.do('stamp-trace', { mark: random.next() < 0.7 ? 'medium' : 'thin', note: '' });
  for (const text of notes) {
    recorder.wait(20_000);
    recorder.do('note', { text });
  }
  const pot = Object.values(recorder.state.vessels).toSorted((a, b) => b.contents - a.contents)[0];
  if (recorder.state.plan.moulds !== undefined && recorder.state.plan.moulds.length > 0) pourMoulds(recorder, random);
  else if (pot !== undefined) {
    const poured = Math.floor(pot.contents * random.between(0.978, 0.99));
    const log = mg(Math.floor(poured * 0.66));
    const parts = [
      { name: 'Log', mass: log },
      { name: 'Tray of six', mass: mg(poured - log) },
    ];
    recorder.do('split', { vessel: pot.plan.id, parts });
  }
  recorder.wait(180_000);
  recorder.do('close', {});
};
