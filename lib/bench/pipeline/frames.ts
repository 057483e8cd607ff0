import type { BootId, EntryId, InstrumentId } from '#lib/units/id';
import type { Monotonic } from '#lib/units/time';
import type { LiveFrame } from '#lib/protocol/live';
import type { AlarmCode, BatchState } from '#lib/work/batch/index';
import type { BarsCue } from '../bars/types';
import type { AlarmCue, BenchCue } from '../cue';
import { ageOf } from '#lib/measure/readings/age';
import { liveProbe, liveScale, oneForEachUse } from './views';
import type { StatusOf } from './views';
import type { Watch } from './watch';

export interface FrameParts {
  readonly boot: BootId;
  readonly n: number;
  readonly now: Monotonic;
  readonly watch: Watch;
  readonly cue: BenchCue;
  readonly batch: BatchState | null;
  readonly status: StatusOf;
  readonly checks: Readonly<Record<InstrumentId, EntryId>>;
  readonly bars: BarsCue | null;
}

export const frameOf = ({ boot, n, now, watch, cue, batch, status, checks, bars }: FrameParts): LiveFrame => {
  const scales = watch.scales().map((scale) => liveScale(scale, status, Object.hasOwn(checks, scale.config.id), now));
  return {
    boot,
    n,
    merged: 0,
    at: Math.round(now),
    scales,
    probes: oneForEachUse(watch.probes(), now).map((probe) => liveProbe(probe, status, now)),
    cue: withoutLost(cue, scales),
    alarms: alarmsOf(batch),
    ...(bars === null ? {} : { bars }),
  };
};

/** What the cue counted from a weight that is none any more is no number either: it may be older than the newest look at its scale. */
const withoutLost = (cue: BenchCue, scales: LiveFrame['scales']): BenchCue => {
  const stands = cue.poured === null || scales.some(({ id, gross }) => id === cue.instrument && gross !== null);
  return stands ? cue : { ...cue, poured: null, total: null, left: null, red: false, overshoot: null, easeOff: false };
};

const alarmsOf = (batch: BatchState | null): readonly AlarmCue[] =>
  Object.entries(batch?.alarms ?? {}).map(([code, alarm]) => ({
    code: code as AlarmCode,
    silenced: alarm.silenced,
    line: alarm.line,
    detail: alarm.detail,
  }));

/**
 * What a person would miss if it came late. A frame made by the clock alone goes out at once only when this changed; what merely
 * counts on (a moment running out, an age) rides with the next reading, so that no reading waits behind it.
 */
export const gist = ({ scales, probes, cue, alarms, bars }: LiveFrame): string =>
  JSON.stringify([
    scales.map((scale) => [scale.link, scale.freshness, scale.range, scale.suspect, scale.checked]),
    probes.map((probe) => [probe.use, probe.link, probe.freshness, probe.suspect]),
    alarms,
    bars?.step ?? null,
    { ...cue, acceptsIn: cue.acceptsIn !== null, settle: cue.settle === null, poured: null, total: null, left: null, overshoot: null },
  ]);

export const agesOf = (watch: Watch, now: Monotonic): Readonly<Record<string, number | null>> => {
  const ages: Record<string, number | null> = {};
  for (const scale of watch.scales()) ages[scale.config.id] = rounded(ageOf(scale.age, now));
  for (const probe of oneForEachUse(watch.probes(), now)) ages[probe.use] = rounded(ageOf(probe.age, now));
  return ages;
};

const rounded = (age: number | null): number | null => (age === null ? null : Math.round(age));
