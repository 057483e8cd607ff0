import type { InstrumentId, LineId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import { span } from '#lib/measure/readings/settle';
import type { BatchState, PanState } from '#lib/work/batch/index';
import type { BenchView } from '../conductor-types';
import type { DoubtReason } from '../cue';
import type { PourMemory, ScaleMemory } from './memory';
import { setScale, within, type Scenery, type Stage } from './stage';

/**
 * A vessel can be set for one line while another is open again: its pour is not followed then, and whoever moves it, or puts another in
 * its place, is not seen doing so. What is poured from that zero afterwards is a person's to take. A zero that the record shifted is still
 * the same; one that was read anew is not.
 */
const isOf = ({ line, zero, reading }: PanState, scale: ScaleMemory): boolean =>
  isAt(line, zero, scale) || (scale.strayed?.line === line && reading === null);

const isAt = (line: LineId, zero: number, { strayed }: ScaleMemory): boolean => strayed?.line === line && strayed.zero === zero;

/** While a question stands nothing is followed either; if its weight is kept, the line goes on from what the question was asked with. */
const askedAt = ({ question }: BatchState, { stand }: ScaleMemory): number | null =>
  question !== null && question.entry === stand?.entry ? question.now : null;

/** The open line's pour is not what the bench is about: a question stands, something is wrong with the batter, ways out are looked at or led. */
const isElsewhere = ({ question, wrong, pour, toDo }: BatchState, view: BenchView): boolean =>
  question !== null || pour.trouble !== null || toDo.length > 0 || (wrong !== null && view.remedy !== undefined);

/** Where the pan has strayed from what it read while its line was not open, or the bench was about something else. */
export const followStrayed = (
  { view }: Stage,
  before: ScaleMemory,
  after: ScaleMemory,
  batch: BatchState | null,
  id: InstrumentId,
): ScaleMemory => {
  const pan = batch?.pans[id];
  const gone = batch === null || (pan === undefined && after.strayed?.line !== batch.open);
  if (gone) return after.strayed === null ? after : { ...after, strayed: null };
  if (pan === undefined) return after;
  const { track } = after;
  const mass = track.masses.at(-1);
  if (pan.line === batch.open && !isElsewhere(batch, view)) return after;
  const { line } = pan;
  const asked = askedAt(batch, after);
  const zero = mg(asked ?? pan.zero);
  const isKnown = asked === null ? isOf(pan, after) : isAt(line, zero, after);
  if (isKnown || mass === undefined || track.news === 'out-of-range') return after;
  const from = asked ?? before.lastLevel ?? zero;
  return Math.abs(mass - from) > movedBy(after, asked) ? { ...after, strayed: { line, zero, doubts: UNSEEN } } : after;
};

/** Beyond this it has moved, mg. What a question was asked with stays for as long as it stands, so nothing smaller may add up beneath it. */
const movedBy = (scale: ScaleMemory, asked: number | null): number =>
  asked === null ? Math.max(3 * scale.track.division, 2 * span(scale.track)) : within(scale);

/** Nobody can say that it still is what it was. */
const UNSEEN: readonly DoubtReason[] = ['return-unlike'];

/**
 * A pour that is left for another line: what was doubtful about it, or not at rest yet, is so when it goes on. So is what was doubtful about
 * one whose zero the record shifts.
 */
export const leavePour = (stage: Scenery, pour: PourMemory): void => {
  const pan = stage.batch.pans[pour.instrument];
  const scale = stage.memory.scales[pour.instrument];
  if (pan === undefined || scale === undefined || pan.line !== pour.line || pan.vessel !== pour.vessel) return;
  const doubts = pan.zero === pour.zero ? leftDoubts(pour, scale) : pan.reading === null ? knownDoubts(pour) : [];
  if (doubts.length > 0) setScale(stage, pour.instrument, { strayed: { line: pan.line, zero: pan.zero, doubts } });
};

const leftDoubts = ({ doubts, fallen }: PourMemory, { track }: ScaleMemory): readonly DoubtReason[] =>
  doubts.length === 0 && !fallen && track.stable ? [] : UNSEEN;

const knownDoubts = ({ doubts, fallen }: PourMemory): readonly DoubtReason[] => [
  ...new Set([...doubts, ...(fallen ? (['fell'] as const) : [])]),
];

/** What a pour that is taken up again is doubtful for. */
export const strayedDoubts = (pan: PanState, scale: ScaleMemory | undefined): readonly DoubtReason[] =>
  scale !== undefined && isOf(pan, scale) ? (scale.strayed?.doubts ?? []) : [];

/** By a person's word alone, or by a mass that is only about the same, it is the vessel that counts from this zero. */
export const notSurely = (line: LineId, zero: number): ScaleMemory['strayed'] => ({ line, zero, doubts: UNSEEN });
