import type { InstrumentId, LineId } from '#lib/units/id';
import { span } from '#lib/measure/readings/settle';
import type { BatchState, PanState } from '#lib/work/batch/index';
import type { DoubtReason } from '../cue';
import type { PourMemory, ScaleMemory } from './memory';
import { setScale, type Scenery } from './stage';

/**
 * A vessel can be set for one line while another is open again: its pour is not followed then, and whoever moves it, or puts another in
 * its place, is not seen doing so. What is poured from that zero afterwards is a person's to take.
 */
const isOf = (line: LineId, zero: number, { strayed }: ScaleMemory): boolean => strayed?.line === line && strayed.zero === zero;

/** While a question stands nothing is followed either; if its weight is kept, the line goes on from what the question was asked with. */
const askedAt = ({ question }: BatchState, { stand }: ScaleMemory): number | null =>
  question !== null && question.entry === stand?.entry ? question.now : null;

/** Where the pan has strayed from what it read while its line was not open, or while a question stood. */
export const followStrayed = (before: ScaleMemory, after: ScaleMemory, batch: BatchState | null, id: InstrumentId): ScaleMemory => {
  const pan = batch?.pans[id];
  const gone = batch === null || (pan === undefined && after.strayed?.line !== batch.open);
  if (gone) return after.strayed === null ? after : { ...after, strayed: null };
  if (pan === undefined) return after;
  const { track } = after;
  const mass = track.masses.at(-1);
  if (pan.line === batch.open && batch.question === null) return after;
  const asked = askedAt(batch, after);
  const zero = asked ?? pan.zero;
  if (isOf(pan.line, zero, after) || mass === undefined || track.news === 'out-of-range') return after;
  const moved = Math.abs(mass - (asked ?? before.lastLevel ?? zero)) > Math.max(3 * track.division, 2 * span(track));
  return moved ? { ...after, strayed: { line: pan.line, zero } } : after;
};

/** A pour that is left for another line: what was doubtful about it, or not at rest yet, is so when it goes on. */
export const leavePour = (stage: Scenery, pour: PourMemory): void => {
  const pan = stage.batch.pans[pour.instrument];
  const scale = stage.memory.scales[pour.instrument];
  const stays = pan !== undefined && pan.line === pour.line && pan.zero === pour.zero;
  if (!stays || scale === undefined || (pour.doubts.length === 0 && !pour.fallen && scale.track.stable)) return;
  setScale(stage, pour.instrument, { strayed: { line: pan.line, zero: pan.zero } });
};

/** What a pour that is taken up again is doubtful for. */
export const strayedDoubts = (pan: PanState, scale: ScaleMemory | undefined): readonly DoubtReason[] =>
  scale !== undefined && isOf(pan.line, pan.zero, scale) ? ['return-unlike'] : [];
