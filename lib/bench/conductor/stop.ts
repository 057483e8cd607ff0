import type { LineState } from '#lib/work/batch/index';
import type { ScaleView } from '../conductor-types';
import { choice } from './choices';
import type { ScaleMemory, StopMemory } from './memory';
import { setScale, within, type Scene, type Scenery } from './stage';

/**
 * Nothing goes on from this scale before a person does: it was lost and came back, changed its unit, or its own tare key was pressed.
 */
export const stopScene = (stage: Scenery, line: LineState, view: ScaleView, scale: ScaleMemory, stop: StopMemory): Scene => {
  const say = { key: `blocked ${stop.why} ${line.plan.id} ${stop.was ?? ''}`, code: 'blocked', params: { reason: stop.why } } as const;
  const blocked = { phase: 'blocked', block: stop.why, say } as const;
  const free = (): void => setScale(stage, view.id, { stop: null });
  if (stop.why === 'tare-pressed') return { ...blocked, goOn: afterTare(scale, stop, free) };
  if (!scale.track.stable) return blocked;
  if (stop.why === 'unit-changed' && stop.was === null) return { ...blocked, goOn: { code: 'unit-noted', hold: false, act: free } };
  const code = stop.why === 'unit-changed' ? 'unit-noted' : 'after-replug';
  const same = stop.was === null || Math.abs(scale.track.level - stop.was) <= within(scale);
  if (same) return { ...blocked, goOn: { code, hold: false, act: free } };
  return { ...blocked, choices: unlikeChoices(stage, line, { view, scale, was: stop.was }, free) };
};

/**
 * The pan reads about empty again: free and zeroed, as was seen, or as a person holds to. Or it reads what it did: the jump was a hand
 * quicker than the scale's frames, and not its key; that, too, only a person can say.
 */
export const afterTare = (scale: ScaleMemory, { was, emptied }: StopMemory, act: () => void): NonNullable<Scene['goOn']> | null => {
  const { track, empty } = scale;
  if (!track.stable) return null;
  if (Math.abs(track.level - empty) <= 3 * track.division) return { code: 'scale-zeroed', hold: !emptied, act };
  const same = was !== null && Math.abs(track.level - was) <= within(scale);
  return same ? { code: 'after-replug', hold: true, act } : null;
};

interface Unlike {
  readonly view: ScaleView;
  readonly scale: ScaleMemory;
  readonly was: number;
}

/** What the line has at this gross, as its number says it; where nothing is poured on this scale, the gross itself. */
const inLine = ({ memory: { pour } }: Scenery, line: LineState, view: ScaleView, gross: number): number => {
  if (pour === null || pour.instrument !== view.id || pour.line !== line.plan.id) return Math.round(gross);
  return Math.round(line.actual + (line.plan.mode === 'loss' ? pour.zero - gross : gross - pour.zero));
};

/** Another weight than before: what was poured meanwhile? A doubt stays on the line either way. */
const unlikeChoices = (stage: Scenery, line: LineState, seen: Unlike, free: () => void) => {
  const { view, scale, was } = seen;
  const params = { was: inLine(stage, line, view, was), now: inLine(stage, line, view, scale.track.level) };
  const doubted = (): void => {
    free();
    // Whether its pour was followed already or not.
    const pan = stage.batch.pans[view.id];
    if (pan !== undefined) setScale(stage, view.id, { strayed: { line: pan.line, zero: pan.zero, doubts: ['after-replug'] } });
  };
  const putRight = (): void => {
    doubted();
    setScale(stage, view.id, { stop: { why: 'disarmed', was, emptied: false } });
  };
  return [choice('poured-meanwhile', params, true, doubted), choice('put-right', params, false, putRight)];
};
