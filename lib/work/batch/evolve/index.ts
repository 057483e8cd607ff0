import type { Entry, EntryKind } from '../entries';
import type { BatchState } from '../state';
import { begin } from './begin';
import * as instruments from './instruments';
import * as joining from './joining';
import * as later from './later';
import * as life from './life';
import * as lines from './lines';
import * as pouring from './pouring';
import * as remedy from './remedy';
import type { Evolve } from './parts';
import * as vessels from './vessels';
import * as weights from './weights';

/** Entries that cannot follow each other: one is missing, doubled, or of another batch. Nothing may be concluded from the rest. */
export class BrokenHistory extends Error {
  constructor(why: string) {
    super(why);
    this.name = 'BrokenHistory';
  }
}

const EVOLVE: { readonly [K in Exclude<EntryKind, 'batch-started'>]: Evolve<K> } = {
  replanned: lines.replanned,
  'lot-chosen': lines.lotChosen,
  'remedy-chosen': remedy.remedyChosen,
  'remedy-act-done': remedy.remedyActDone,
  'wrong-stated': remedy.wrongStated,
  'line-closed': lines.lineClosed,
  'line-reopened': lines.lineReopened,
  'vessel-set': weights.vesselSet,
  'weight-accepted': weights.weightAccepted,
  'weight-typed': weights.weightTyped,
  'weighed-back': weights.weighedBack,
  'vessel-lifted': weights.vesselLifted,
  'weight-questioned': weights.weightQuestioned,
  'question-answered': weights.questionAnswered,
  struck: weights.struck,
  'over-answered': weights.overAnswered,
  moved: vessels.moved,
  withdrawn: vessels.withdrawn,
  lost: vessels.lost,
  split: vessels.split,
  dissolved: vessels.dissolved,
  'pattern-named': pouring.patternNamed,
  'container-set': pouring.containerSet,
  parted: pouring.parted,
  'mould-poured': pouring.mouldPoured,
  'left-over': pouring.leftOver,
  'batter-wrong': pouring.batterWrong,
  'photo-asked': pouring.photoAsked,
  'gate-confirmed': joining.gateConfirmed,
  'temperature-noted': joining.temperatureNoted,
  override: joining.override,
  joined: joining.joined,
  'trace-stamped': joining.traceStamped,
  'went-away': life.wentAway,
  'came-back': life.cameBack,
  resumed: life.resumed,
  parked: life.parked,
  'taken-up': life.takenUp,
  abandoned: life.abandoned,
  closed: life.closed,
  noted: life.noted,
  cleaned: later.cleaned,
  amended: later.amended,
  'photo-kept': later.photoKept,
  'scale-checked': instruments.scaleChecked,
  'alarm-raised': instruments.alarmRaised,
  'alarm-ended': instruments.alarmEnded,
  'alarm-silenced': instruments.alarmSilenced,
  'instrument-lost': instruments.instrumentLost,
  'instrument-back': instruments.instrumentBack,
  'clock-jumped': instruments.clockJumped,
};

/** What an entry that cannot change made of the state it was last applied to: the bench and the list of batches fold the same ones. */
const folded = new WeakMap<Entry, { readonly before: BatchState | null; readonly after: BatchState }>();

/**
 * The batch after one more of its entries. Pure, and the same on server and page. Throws `BrokenHistory` when the entry is not
 * the next one of this batch; an entry that `decide` drafted, completed with the next version, never does.
 */
export const evolve = (state: BatchState | null, entry: Entry): BatchState => {
  const known = folded.get(entry);
  if (known !== undefined && known.before === state) return known.after;
  const after = applied(state, entry);
  if (Object.isFrozen(entry)) folded.set(entry, { before: state, after });
  return after;
};

const applied = (state: BatchState | null, entry: Entry): BatchState => {
  if (entry.kind === 'batch-started') {
    if (state !== null) throw new BrokenHistory(`batch ${entry.batch} starts twice`);
    if (entry.version !== 1) throw new BrokenHistory(`batch ${entry.batch} starts with version ${entry.version}`);
    return begin(entry);
  }
  if (state === null) throw new BrokenHistory(`batch ${entry.batch} begins with ${entry.kind}`);
  if (entry.batch !== state.id) throw new BrokenHistory(`an entry of batch ${entry.batch} among those of ${state.id}`);
  if (entry.version !== state.version + 1) throw new BrokenHistory(`version ${entry.version} follows ${state.version}`);
  if (!Object.hasOwn(EVOLVE, entry.kind)) throw new BrokenHistory(`this program knows no ${entry.kind}`);
  const apply = EVOLVE[entry.kind] as Evolve<EntryKind>;
  return apply({ ...state, version: entry.version, boot: entry.boot }, entry);
};

/** Every entry of one batch, in order, to its state; `null` when there are none. */
export const fold = (entries: readonly Entry[]): BatchState | null => entries.reduce<BatchState | null>(evolve, null);
