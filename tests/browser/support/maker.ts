import type { BenchCue } from '#lib/bench/cue';
import type { ScaleRole } from '#lib/measure/instrument';
import type { BatchState } from '#lib/work/batch/index';
import type { DeviceProcess } from '#tests/support/device';

/** What a maker sees: the cue, and the plan behind the vessel it names. Masses on the devices are grams. */
export interface Sight {
  readonly cue: BenchCue;
  readonly batch: BatchState | null;
}

export type Scales = Readonly<Record<ScaleRole, DeviceProcess>>;

const grams = (mg: number): number => mg / 1000;

/** What the simulated pan truly carries beyond its vessel, mg. */
export const carriedBy = async (scale: DeviceProcess): Promise<number> => Number((await scale.tell({ act: 'truth' }))['carried']);

/** What stands on a scale. */
const standingOn = async (scale: DeviceProcess): Promise<string | null> => {
  const vessel = (await scale.tell({ act: 'truth' }))['vessel'];
  return typeof vessel === 'string' ? vessel : null;
};

const roleOf = ({ batch, cue }: Sight): ScaleRole | null => (cue.line === null ? null : (batch?.lines[cue.line]?.plan.scale ?? null));

/** Hands only: brings, lifts and pours as the bench asks, and does nothing while it asks for a person. Returns what it did. */
export const moveHands = async (scales: Scales, sight: Sight): Promise<'set-down' | 'lift' | 'pour' | 'nothing'> => {
  const { cue, batch } = sight;
  const role = roleOf(sight);
  if (cue.phase === 'lift') return liftNamed(scales, cue.vessel);
  if (role === null) return 'nothing';
  const scale = scales[role];
  if (cue.phase === 'waiting-vessel' && cue.vessel !== null) {
    const standing = await standingOn(scale);
    if (standing === cue.vessel) return 'nothing';
    if (standing !== null) {
      await scale.tell({ act: 'lift' });
      return 'lift';
    }
    const empty = batch?.vessels[cue.vessel]?.plan.empty ?? 0;
    await scale.tell({ act: 'set-down', name: cue.vessel, grams: grams(empty) });
    return 'set-down';
  }
  if (['ready', 'short', 'pouring'].includes(cue.phase) && (cue.left ?? 0) > 0 && cue.left !== null) {
    await scale.tell({ act: 'pour', grams: grams(cue.left) });
    return 'pour';
  }
  return 'nothing';
};

const liftNamed = async (scales: Scales, vessel: string | null): Promise<'lift' | 'nothing'> => {
  for (const scale of [scales.main, scales.fine]) {
    const standing = await standingOn(scale);
    if (standing === null || (vessel !== null && standing !== vessel)) continue;
    await scale.tell({ act: 'lift' });
    return 'lift';
  }
  return 'nothing';
};
