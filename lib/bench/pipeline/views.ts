import type { LinkStatus } from '#lib/measure/instrument';
import type { Freshness } from '#lib/measure/reading';
import { ageOf, freshness } from '#lib/measure/readings/age';
import type { InstrumentId } from '#lib/units/id';
import type { Monotonic } from '#lib/units/time';
import type { LiveProbe, LiveScale } from '#lib/protocol/live';
import type { ProbeView, ScaleView } from '../conductor-types';
import { divisionOf } from './watch';
import type { ProbeWatch, ScaleWatch } from './watch';

/** What the conductor sees of a scale. */
export const scaleView = (watch: ScaleWatch, now: Monotonic): ScaleView => ({
  id: watch.config.id,
  role: watch.config.role,
  capacity: watch.config.capacity,
  division: divisionOf(watch),
  told: watch.config.division,
  freshness: freshness(watch.age, now),
  reading: watch.reading,
  period: watch.age.period,
  suspect: watch.suspect,
});

export const probeView = (watch: ProbeWatch, now: Monotonic): ProbeView => {
  const fresh = freshness(watch.age, now);
  return {
    use: watch.use,
    freshness: fresh,
    value: fresh === 'fresh' ? (watch.reading?.value ?? null) : null,
    suspect: watch.reading?.fault ?? null,
    heard: watch.last !== null,
  };
};

/** One probe for each place: of two that claim the same one, the one that is heard. */
export const oneForEachUse = (probes: readonly ProbeWatch[], now: Monotonic): readonly ProbeWatch[] => {
  const rank: Record<Freshness, number> = { fresh: 0, late: 1, lost: 2 };
  const best = new Map<string, ProbeWatch>();
  for (const probe of probes) {
    const other = best.get(probe.use);
    if (other === undefined || rank[freshness(probe.age, now)] < rank[freshness(other.age, now)]) best.set(probe.use, probe);
  }
  return [...best.values()];
};

export type StatusOf = (instrument: InstrumentId) => Pick<LinkStatus, 'phase' | 'nature'> & Partial<Pick<LinkStatus, 'failure'>>;

/** What a screen sees of a scale: a weight that is late, lost, suspect or out of range is no number here already (A1). */
export const liveScale = (watch: ScaleWatch, status: StatusOf, checked: boolean, now: Monotonic): LiveScale => {
  const { phase, nature, failure = null } = status(watch.config.id);
  const { reading, suspect, last } = watch;
  const fresh = freshness(watch.age, now);
  return {
    id: watch.config.id,
    role: watch.config.role,
    name: watch.config.name,
    link: phase,
    failure,
    freshness: fresh,
    age: rounded(ageOf(watch.age, now)),
    gross: fresh === 'fresh' && suspect === null ? (reading?.mass ?? null) : null,
    motion: fresh === 'fresh' ? (reading?.motion ?? 'unstated') : 'unstated',
    range: reading?.range ?? 'in',
    unit: reading?.unit ?? null,
    division: divisionOf(watch),
    last: last === null ? null : { gross: last.gross, age: Math.round(now - last.at) },
    suspect,
    nature,
    checked,
  };
};

export const liveProbe = (watch: ProbeWatch, status: StatusOf, now: Monotonic): LiveProbe => {
  const { use, freshness: fresh, value, suspect } = probeView(watch, now);
  const { last, correction } = watch;
  return {
    use,
    correction,
    name: watch.config.name,
    link: status(watch.config.id).phase,
    freshness: fresh,
    age: rounded(ageOf(watch.age, now)),
    value,
    suspect,
    last: last === null ? null : { value: last.value, age: Math.round(now - last.at) },
  };
};

const rounded = (ms: number | null): number | null => (ms === null ? null : Math.round(ms));
