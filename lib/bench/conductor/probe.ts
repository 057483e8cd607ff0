import type { ProbeUse } from '#lib/measure/reading';
import type { VesselPlan, VesselUse } from '#lib/work/batch/index';
import type { ProbeMemory } from './memory';
import type { Scene, Stage } from './stage';

/**
 * A probe leaning in a vessel carries part of its weight, or its cable adds some. The weight alone cannot show a probe that leans
 * still; what can be seen is a probe dipped while its vessel stands on the pan: the temperature leaps. It is out when it leaps back,
 * when the vessel is lifted or when a person says so, held. `probesInVessel` is known and believed in any case. A hydroxide's cup is dry:
 * the lye's probe leaps beside it while lye is made, and says nothing of the cup.
 */
const PROBE_OF: Readonly<Record<VesselUse, ProbeUse | null>> = { oils: 'oils', hydroxide: null, liquid: 'lye', aside: null };

/** 2 °C in 6 s: a pot of oils on a bench changes by less than 0.2 °C in that time, a dipped probe by tens. Ours. */
const LEAP = 2000;
const LEAP_WITHIN = 6000;
/** A leap may be too sudden to be believed at once; what the probe said before is remembered over that silence. Ours. */
const UNHEARD_MOST = 10_000;

const isDipped = (stage: Stage, vessel: VesselPlan): boolean => {
  const use = PROBE_OF[vessel.use];
  return use !== null && stage.memory.probes[use]?.dipped === true;
};

const isKnown = (stage: Stage, vessel: VesselPlan): boolean => stage.view.probesInVessel?.includes(vessel.id) === true;

export const probeLeans = (stage: Stage, vessel: VesselPlan): boolean => isKnown(stage, vessel) || isDipped(stage, vessel);

/** A person says the probe is out; `null` where that would be no answer, because it is known to be in. */
export const probeOut = (stage: Stage, vessel: VesselPlan): NonNullable<Scene['goOn']> | null => {
  const use = PROBE_OF[vessel.use];
  if (use === null || isKnown(stage, vessel)) return null;
  const act = (): void => {
    stage.memory.probes = { ...stage.memory.probes, [use]: undefined };
  };
  return { code: 'probe-out', hold: true, act };
};

/** Once a second is enough to see a leap. `standing`: vessels on a pan now. */
export const followProbes = (stage: Stage, standing: readonly VesselPlan[]): void => {
  const uses = new Set(standing.map((vessel) => PROBE_OF[vessel.use]));
  for (const probe of stage.view.probes) {
    const before = stage.memory.probes[probe.use];
    const stands = uses.has(probe.use);
    if (before !== undefined && before.dipped && !stands) stage.memory.probes = { ...stage.memory.probes, [probe.use]: undefined };
    else if (probe.value !== null && (before === undefined || stage.now - before.at >= 1000)) {
      stage.memory.probes = { ...stage.memory.probes, [probe.use]: followProbe(before, probe.value, stage.now, stands) };
    }
  }
};

const followProbe = (before: ProbeMemory | undefined, value: number, now: number, standing: boolean): ProbeMemory => {
  const heard = before !== undefined && now - before.at <= UNHEARD_MOST ? before : undefined;
  const last = heard?.kept.at(-1);
  const kept = (heard?.kept ?? []).filter((one) => one === last || now - one.at <= LEAP_WITHIN);
  const least = Math.min(value, ...kept.map((one) => one.value));
  const most = Math.max(value, ...kept.map((one) => one.value));
  const dipped = value - least >= LEAP ? standing : most - value >= LEAP ? false : standing && before?.dipped === true;
  return { at: now, kept: [...kept, { at: now, value }], dipped };
};
