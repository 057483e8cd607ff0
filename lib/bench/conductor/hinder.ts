import type { BatchState, LineState } from '#lib/work/batch/index';
import type { ScaleView } from '../conductor-types';
import type { BlockReason } from '../cue';
import type { ScaleMemory } from './memory';
import { probeLeans } from './probe';
import { isLate, type Stage } from './stage';

/**
 * What stands against believing this scale now, worst first; `null`: its newest reading is fresh, in range and its own.
 * Nothing is accepted, zeroed or recognised while this says anything.
 */
export const hindrance = (stage: Stage, view: ScaleView, scale: ScaleMemory | null): BlockReason | null => {
  if (view.freshness === 'lost' || scale === null) return 'lost';
  if (scale.stop !== null) return scale.stop.why;
  if (view.suspect !== undefined && view.suspect !== null) return 'suspect';
  const range = view.reading?.range ?? 'in';
  if (range !== 'in') return range === 'over' ? 'overload' : 'underload';
  if (scale.track.news === 'out-of-range') return 'suspect';
  if (view.freshness === 'late' || isLate(scale, stage.now)) return 'late';
  return null;
};

/** What stands besides against taking a weight into the record. */
export const acceptBlock = (stage: Stage, batch: BatchState, line: LineState, view: ScaleView, scale: ScaleMemory): BlockReason | null => {
  const hindered = hindrance(stage, view, scale);
  if (hindered !== null) return hindered;
  if (!stage.view.leased) return 'no-lease';
  const vessel = batch.vessels[line.plan.vessel];
  if (line.plan.mode === 'gain' && vessel !== undefined && probeLeans(stage, vessel.plan)) return 'probe-leaning';
  if (!scale.track.stable || scale.window === null) return 'moving';
  return null;
};
