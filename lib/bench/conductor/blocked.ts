import type { LineState } from '#lib/work/batch/index';
import type { BlockReason } from '../cue';
import { probeOut } from './probe';
import type { Scene, Scenery } from './stage';

/** Something stands against taking the weight; a probe that only seems to lean is out when a person says so. */
export const blockedScene = (stage: Scenery, line: LineState, block: BlockReason): Scene => {
  const vessel = stage.batch.vessels[line.plan.vessel];
  const goOn = block === 'probe-leaning' && vessel !== undefined ? probeOut(stage, vessel.plan) : null;
  return { phase: 'blocked', block, goOn, say: { key: `blocked ${block} ${line.plan.id}`, code: 'blocked', params: { reason: block } } };
};
