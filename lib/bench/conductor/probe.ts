import type { ProbeUse } from '#lib/measure/reading';
import type { VesselPlan, VesselUse } from '#lib/work/batch/index';
import type { ProbeMemory } from './memory';
import type { Stage } from './stage';

/**
 * A probe leaning in a vessel carries part of its weight, or its cable adds some. The weight alone cannot show a probe that leans
 * still; what can be seen is a probe dipped while its vessel stands on the pan: the temperature leaps. It is out when it leaps back,
 * when the vessel is lifted or when a person says so. `probesInVessel` is believed in any case.
 */
const PROBE_OF: Readonly<Record<VesselUse, ProbeUse | null>> = { oils: 'oils', hydroxide: 'lye', liquid: 'lye', aside: null };

/** 2 °C in 6 s: a pot of oils on a bench changes by less than 0.2 °C in that time, a dipped probe by tens. Ours. */
const LEAP = 2000;
const LEAP_WITHIN = 6000;

export const probeLeans = (stage: Stage, vessel: VesselPlan): boolean => {
  if (stage.view.probesInVessel?.includes(vessel.id) === true) return true;
  const use = PROBE_OF[vessel.use];
  return use !== null && stage.memory.probes[use]?.dipped === true;
};

/** Once a second is enough to see a leap. `standing`: vessels on a pan now. */
export const followProbes = (stage: Stage, standing: readonly VesselPlan[]): void => {
  const uses = new Set(standing.map((vessel) => PROBE_OF[vessel.use]));
  for (const probe of stage.view.probes) {
    const before = stage.memory.probes[probe.use];
    if (before !== undefined && stage.now - before.at < 1000) continue;
    const after = probe.value === null ? undefined : followProbe(before, probe.value, stage.now, uses.has(probe.use));
    if (after !== before) stage.memory.probes = { ...stage.memory.probes, [probe.use]: after };
  }
};

const followProbe = (before: ProbeMemory | undefined, value: number, now: number, standing: boolean): ProbeMemory => {
  const kept = (before?.kept ?? []).filter((one) => now - one.at <= LEAP_WITHIN);
  const least = Math.min(value, ...kept.map((one) => one.value));
  const most = Math.max(value, ...kept.map((one) => one.value));
  const dipped = value - least >= LEAP ? standing : most - value >= LEAP ? false : standing && before?.dipped === true;
  return { at: now, kept: [...kept, { at: now, value }], dipped };
};

/** A person says the probe is out. */
export const probeOut = (stage: Stage): void => {
  stage.memory.probes = {};
};
