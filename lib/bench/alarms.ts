import type { InstrumentId, LineId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import { milliCelsius } from '#lib/units/temperature';
import type { Monotonic } from '#lib/units/time';
import type { AlarmCode, BatchState, LineState, Want } from '#lib/work/batch/index';
import { joiningHolds, lyeMade, withTyped, type JoiningTemperatures } from '#lib/work/batch/joining';
import { isRed } from '#lib/work/batch/red';
import type { BenchView } from './conductor-types';
import { isOver, isRunning, standingAt, standsCrossedOut } from './conductor/pour';
import { scaleOf, within } from './conductor/stage';
import type { ConductorMemory } from './conductor/index';
import { isTroubled } from './waiting';

/** An alarm that should stand now. */
interface Wanted {
  readonly line: LineId | null;
  readonly instrument: InstrumentId | null;
  readonly detail: string;
}

interface Now {
  readonly batch: BatchState;
  readonly view: BenchView;
  readonly memory: ConductorMemory;
  readonly now: Monotonic;
}

/** `keep`: too little is known to say; an alarm that stands goes on standing, none is raised. */
type Judged = Wanted | 'keep' | null;

/**
 * The alarm entries wanted now: what should sound and does not, and what sounds and should not. Run on every tick, because the silence of
 * an instrument brings no event. An alarm that asks a person something (`question`, an over-pour in the record) is raised and ended with
 * its answer, by `decide`, and left alone here. A silenced alarm still stands: silence is no acknowledgement.
 */
export const alarmWants = (batch: BatchState | null, view: BenchView, memory: ConductorMemory, now: Monotonic): readonly Want[] => {
  if (batch === null || batch.status === 'closed' || batch.status === 'abandoned') return [];
  const moment: Now = { batch, view, memory, now };
  const working = batch.status !== 'parked';
  return RULES.flatMap(([code, rule]): readonly Want[] => {
    const judged = working ? rule(moment) : null;
    if (judged === 'keep') return [];
    const stands = batch.alarms[code] !== undefined;
    if (judged === null) return stands ? [{ kind: 'end-alarm', body: { code } }] : [];
    return stands ? [] : [{ kind: 'raise-alarm', body: { code, ...judged } }];
  });
};

const on = (instrument: InstrumentId | null, line: LineId | null, detail: string): Wanted => ({ instrument, line, detail });

/** A scale that carries a set vessel, or that the open line needs, has gone silent. */
const scaleLost = ({ batch, view }: Now): Judged => {
  const line = batch.open === null ? undefined : batch.lines[batch.open];
  for (const scale of view.scales) {
    const needed = batch.pans[scale.id] !== undefined || (line?.plan.scale === scale.role && line.plan.mode !== 'by-hand');
    if (needed && scale.freshness === 'lost') return on(scale.id, batch.open, scale.role);
  }
  return null;
};

/** From the lye on, both temperatures are needed until the halves are joined. */
const waitsForTemperatures = ({ batch }: Now): boolean =>
  batch.status === 'weighing' && batch.plan.lines.some((line) => line.material.class === 'hydroxide') && lyeMade(batch);

const oilsLines = ({ batch }: Now): readonly LineState[] => Object.values(batch.lines).filter(({ plan }) => plan.phase === 'oils');

/** From the first oils line on: it is being weighed, or was. */
const oilsBegun = (moment: Now): boolean =>
  moment.batch.status === 'weighing' && oilsLines(moment).some(({ status, actual }) => status !== 'waiting' || actual > 0);

/** Every oil is in, nobody is there, and what begins to set goes on doing so. */
const oilsLeftAlone = (moment: Now): boolean => {
  const oils = oilsLines(moment);
  return (
    moment.batch.away !== null && moment.batch.status === 'weighing' && oils.length > 0 && oils.every(({ status }) => status === 'closed')
  );
};

/** From the lye on every probe is needed; before it, one that was heard and says nothing more is missed from the first oils line on. */
const probeLost = (moment: Now): Judged => {
  const needed = waitsForTemperatures(moment);
  if (!needed && !oilsBegun(moment)) return null;
  for (const use of ['lye', 'oils'] as const) {
    const probe = moment.view.probes.find((one) => one.use === use);
    if (probe === undefined || !(needed || probe.heard === true)) continue;
    if (probe.freshness === 'lost' || probe.suspect !== null) return on(null, null, use);
  }
  return null;
};

/** Only where something is weighed: there the bench says what to do about it. A scale not in use stops its next line all the same. */
const stopped =
  (why: 'unit-changed' | 'tare-pressed') =>
  ({ batch, memory, view }: Now): Judged => {
    const line = batch.open === null ? undefined : batch.lines[batch.open];
    const id = line === undefined || line.plan.mode === 'by-hand' ? undefined : scaleOf(view, line)?.id;
    const stop = id === undefined ? null : (memory.scales[id]?.stop ?? null);
    return id === undefined || stop?.why !== why ? null : on(id, batch.open, String(Math.round(stop.was ?? 0)));
  };

/** A settled over-pour that nobody has answered, before it is in the record. */
const overPour =
  (red: boolean) =>
  ({ batch, memory }: Now): Judged => {
    if (batch.over !== null) return 'keep';
    // It is in the record and answered: what stands on the pan until the way out is done would count twice.
    if (batch.toDo.length > 0) return null;
    const { pour } = memory;
    const line = pour === null ? undefined : batch.lines[pour.line];
    const scale = pour === null ? undefined : memory.scales[pour.instrument];
    if (pour === null || line === undefined || scale === undefined || pour.lifted !== null || scale.stop !== null) return null;
    if (!isRunning(batch, pour)) return null;
    if (!scale.track.stable) return 'keep';
    if (standsCrossedOut(pour, scale)) return null;
    const { net, left } = standingAt(line, pour, scale.track.level);
    if (!isOver(line, left) || isRed(batch, line, mg(Math.round(line.actual + net))) !== red) return null;
    return on(pour.instrument, pour.line, String(Math.round(-left)));
  };

/** While nobody is there: what was left on the pan weighs something else. With somebody there the conductor asks at once. */
const vesselChanged = ({ batch, memory, view }: Now): Judged => {
  if (batch.question !== null) return 'keep';
  const gross = batch.away?.gross ?? null;
  const line = batch.away?.line ?? null;
  if (gross === null || line === null) return null;
  const id = view.scales.find((scale) => scale.role === batch.lines[line]?.plan.scale)?.id;
  const scale = id === undefined ? undefined : memory.scales[id];
  if (id === undefined || scale === undefined || !scale.track.stable || scale.stop !== null) return 'keep';
  const difference = scale.track.level - gross;
  return Math.abs(difference) > within(scale) ? on(id, line, String(Math.round(difference))) : null;
};

const TEMPERATURES = ['lye-too-hot', 'oils-near-setting', 'milk-too-hot', 'apart'] as const;
type TemperatureCode = (typeof TEMPERATURES)[number];

/** An alarm that stands is not ended before the value is this far on the right side again. Ours: a probe's noise, several times over. */
const CLEAR = 500;

/** Temperatures moved towards the fault, so that one that stands ends with a margin. */
const towards = (code: TemperatureCode, { lye, oils, milk }: JoiningTemperatures): JoiningTemperatures => {
  const moved = (value: typeof lye, by: number) => (value === null ? null : milliCelsius(value + by));
  if (code === 'oils-near-setting') return { lye, oils: moved(oils, -CLEAR), milk };
  if (code === 'apart' && lye !== null && oils !== null) return { lye: moved(lye, lye >= oils ? CLEAR : -CLEAR), oils, milk };
  return { lye: moved(lye, CLEAR), oils, milk: moved(milk, CLEAR) };
};

/** Setting oils and scorching milk need a hand as soon as lye is made; while nobody is there, setting oils do as soon as all are in. Hot
 * lye is no fault while something is still being weighed, nor as long as it only is to be waited for. */
const isWaitedFor = (code: TemperatureCode): code is 'lye-too-hot' | 'apart' => code === 'lye-too-hot' || code === 'apart';

const onlyToWait = (code: TemperatureCode, { batch, view, memory, now }: Now): boolean => {
  if (!isWaitedFor(code)) return false;
  const { lyeSeen = null, neverMeet = null } = view;
  return !isTroubled(code, { batch, lyeSeen, never: neverMeet, joinAsked: memory.joinAsked, now });
};

const temperature =
  (code: TemperatureCode) =>
  (moment: Now): Judged => {
    const { batch, view, now } = moment;
    const early = code === 'oils-near-setting' && oilsLeftAlone(moment);
    if (!early && (!waitsForTemperatures(moment) || (batch.open !== null && isWaitedFor(code)))) return null;
    const value = (use: 'lye' | 'oils') => {
      const probe = view.probes.find((one) => one.use === use);
      return probe?.freshness === 'fresh' && probe.suspect === null ? probe.value : null;
    };
    const seen = withTyped(batch, { lye: value('lye'), oils: value('oils'), milk: null }, view.boot ?? batch.boot, now);
    const needed = code === 'oils-near-setting' ? [seen.oils] : code === 'apart' ? [seen.lye, seen.oils] : [seen.lye];
    if (needed.includes(null)) return 'keep';
    const stands = batch.alarms[code] !== undefined;
    const hold = joiningHolds(batch, stands ? towards(code, seen) : seen).find((one) => one.reason === code);
    if (hold !== undefined && !stands && onlyToWait(code, moment)) return null;
    return hold === undefined || hold.overridden ? null : on(null, null, `${hold.value ?? ''} ${hold.limit ?? ''}`);
  };

const RULES: readonly (readonly [AlarmCode, (moment: Now) => Judged])[] = [
  ['scale-lost', scaleLost],
  ['probe-lost', probeLost],
  ['unit-changed', stopped('unit-changed')],
  ['tare-pressed', stopped('tare-pressed')],
  ['over-pour', overPour(false)],
  ['over-pour-red', overPour(true)],
  ['vessel-changed', vesselChanged],
  ...TEMPERATURES.map((code) => [code, temperature(code)] as const),
];
