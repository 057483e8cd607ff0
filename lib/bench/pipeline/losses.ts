import { freshness } from '#lib/measure/readings/age';
import type { Monotonic } from '#lib/units/time';
import type { BatchState, Want } from '#lib/work/batch/index';
import type { ScaleWatch } from './watch';

/**
 * What the record should know of scales that went away and came back. One that has not been heard in this boot was not lost in it:
 * that it is missing is an alarm, not an event.
 */
export const lossWants = (batch: BatchState | null, scales: readonly ScaleWatch[], now: Monotonic): readonly Want[] => {
  if (batch === null || (batch.status !== 'weighing' && batch.status !== 'joined')) return [];
  const wants: Want[] = [];
  for (const { config, age, last, reading } of scales) {
    const fresh = freshness(age, now);
    const noted = batch.lostInstruments.includes(config.id);
    if (fresh === 'lost' && !noted && reading !== null)
      wants.push({ kind: 'lose-instrument', body: { instrument: config.id, last: last?.gross ?? null } });
    if (fresh === 'fresh' && noted) wants.push({ kind: 'regain-instrument', body: { instrument: config.id } });
  }
  return wants;
};
