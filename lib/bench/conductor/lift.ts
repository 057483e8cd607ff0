import type { InstrumentId, LineId, VesselId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import { firstSince, settledFrame, span } from '#lib/measure/readings/settle';
import type { BatchState, Contribution } from '#lib/work/batch/index';
import type { ScaleMemory, StandMemory } from './memory';
import { setScale, wantOnce, within, type Scenery } from './stage';
import { threshold } from './zero';

/** A shift up for longer than this before a lift was no hand taking hold, ms. */
const UP_LONGEST = 500;
/** The scale itself lags behind the hand by about this share of its set-down time. */
const UP_RISES = 0.25;
/** A vessel on its way up never stands still for so long, ms and frames. */
const STILL_MS = 500;
const STILL_PERIODS = 4;
/** A pan at rest may differ this little from empty, in divisions: wandering, creep and rounding. */
const EMPTY_DIVISIONS = 1.5;
/** What is left on the pan matters from this share of the tolerance on. */
const EMPTY_SHARE = 0.5;
/** A vessel being lifted reads less for as long as the scale needs, and not longer. */
const DOWN_RISES = 1.5;
const DOWN_MORE = 600;

/** Newest accepted weight that is provisional and stands on each pan by the record. */
export const standOf = (batch: BatchState, id: InstrumentId, scale: ScaleMemory): StandMemory | null => {
  const pan = batch.pans[id];
  if (pan === undefined) return null;
  let newest: { readonly one: Contribution; readonly line: LineId } | null = null;
  let tolerance = Infinity;
  for (const line of Object.values(batch.lines)) {
    for (const one of line.contributions) {
      const stands = one.provisional && one.struck === null && one.vessel === pan.vessel && one.weighed?.instrument === id;
      if (!stands) continue;
      tolerance = Math.min(tolerance, line.plan.tolerance);
      if (newest === null || one.version > newest.one.version) newest = { one, line: line.plan.id };
    }
  }
  if (newest === null || newest.one.weighed === null) return null;
  if (scale.stand?.entry === newest.one.entry) return scale.stand;
  return {
    entry: newest.one.entry,
    vessel: newest.one.vessel,
    line: newest.line,
    gross: newest.one.weighed.gross,
    tolerance,
    empty: scale.emptySeen ? scale.empty : null,
    up: null,
    down: null,
    wasUp: null,
    still: null,
    left: newest.one.weighed.gross,
    off: null,
    nearest: Infinity,
    stayed: null,
    shifted: null,
  };
};

/** Watches one accepted vessel until it is lifted; a shift before the lift, or a pan that does not come back to empty, is asked about. */
export const watchStand = (stage: Scenery, id: InstrumentId): void => {
  const scale = stage.memory.scales[id];
  const stand = scale?.stand ?? null;
  if (scale === undefined || stand === null || scale.stop !== null || isPouredOnto(stage, stand.vessel, id)) return;
  const mass = scale.track.masses.at(-1);
  if (mass === undefined || scale.track.news === 'out-of-range' || isCrossedOutOn(stage.batch, id, mass, limitOf(stand, scale))) return;
  const free = mass - scale.empty <= threshold(scale, stand.gross - scale.empty);
  const next = free ? freed(stand, scale, mass, stage.now) : standing(stand, scale, mass, stage.now);
  if (next !== stand) setScale(stage, id, { stand: next });
  if (scale.track.stable) conclude(stage, id, scale, next, free);
};

/**
 * The next line is already being poured into the same vessel: its weight must not stand still now. A bottle is lifted to be poured from:
 * its pan must stay set, or the zero taken on its return would swallow what was poured.
 */
const isPouredOnto = ({ memory, batch }: Scenery, vessel: VesselId, id: InstrumentId): boolean => {
  const { pour } = memory;
  if (pour === null || pour.vessel !== vessel || pour.instrument !== id) return false;
  return pour.begun || batch.lines[pour.line]?.plan.mode === 'loss';
};

/** What was crossed out still stands on top of what was accepted before it: that it does is known. */
const isCrossedOutOn = ({ pans, lines }: BatchState, id: InstrumentId, mass: number, limit: number): boolean => {
  const pan = pans[id];
  const last = pan === undefined ? undefined : lines[pan.line]?.contributions.at(-1);
  if (last === undefined || last.struck === null || last.weighed === null) return false;
  return last.vessel === pan?.vessel && last.weighed.instrument === id && Math.abs(mass - last.weighed.gross) <= limit;
};

/**
 * Something stayed on the pan, or the scale has wandered since. A pan at rest says it closely; where the next vessel stands already, or a
 * light one that counts as nearly nothing, what tells is how near to empty the pan came between. Nothing that is set down makes a pan
 * lighter than empty: a cable or a hose lifts it, and did so at the weight as well.
 */
const isLeftOn = (stand: StandMemory, scale: ScaleMemory, empty: number, free: boolean): boolean => {
  const { division, level } = scale.track;
  // The median: the tail of the lift is in the mean.
  const more = (settledFrame(scale.track)?.gross ?? level) - empty;
  if (!free || more > threshold(scale, null)) return stand.nearest > within(scale);
  return Math.abs(more) > Math.max(EMPTY_DIVISIONS * division, EMPTY_SHARE * stand.tolerance);
};

const limitOf = (stand: StandMemory, scale: ScaleMemory): number => Math.max(within(scale), 0.3 * stand.tolerance);

const freed = (stand: StandMemory, scale: ScaleMemory, mass: number, now: number): StandMemory => {
  const nearest = Math.min(stand.nearest, Math.abs(mass - (stand.empty ?? scale.empty)));
  if (stand.off !== null) {
    const stayed = stand.stayed ?? stayedOn(stand, scale, nearest);
    return nearest === stand.nearest && stayed === stand.stayed ? stand : { ...stand, nearest, stayed };
  }
  const { rise } = scale.track;
  const longest = UP_LONGEST + UP_RISES * rise;
  const lifting = DOWN_RISES * rise + DOWN_MORE;
  const { wasUp } = stand;
  const up = (stand.up !== null && now - stand.up > longest) || (wasUp !== null && wasUp.long > longest && now - wasUp.until <= lifting);
  const down = stand.down !== null && now - stand.down > lifting;
  const { still } = stand;
  const shifted = up ? 'shifted-up' : down ? 'shifted-down' : still === null ? null : still > stand.gross ? 'shifted-up' : 'shifted-down';
  return { ...stand, off: now, nearest, shifted, left: still ?? stand.left };
};

const standing = (stand: StandMemory, scale: ScaleMemory, mass: number, now: number): StandMemory => {
  if (stand.off !== null) return stand;
  const limit = limitOf(stand, scale);
  const difference = mass - stand.gross;
  const up = difference > limit ? (stand.up ?? now) : null;
  const down = difference < -limit ? (stand.down ?? now) : null;
  const left = scale.track.stable ? scale.track.level : stand.left;
  const agrees = scale.track.stable && Math.abs(scale.track.level - stand.gross) <= limit;
  const ended = up === null && stand.up !== null ? { long: now - stand.up, until: now } : stand.wasUp;
  const wasUp = agrees ? null : ended;
  const stood = difference > limit || difference < -limit ? momentary(scale) : null;
  const still = agrees ? null : stood !== null && Math.abs(stood - stand.gross) > limit ? stood : stand.still;
  const same = up === stand.up && down === stand.down && left === stand.left && wasUp === stand.wasUp && still === stand.still;
  return same ? stand : { ...stand, up, down, left, wasUp, still };
};

/** A scale that is still coming down from the lift loses more than this share of what is left in such a moment. */
const FALLING_SHARE = 0.25;

/**
 * A hand that leaned, or what lay beside the vessel, is on the pan still when that has gone, and leaves it before it comes to rest: the
 * reading stands on its way down. `null`: it does not, or the pan has been near to empty since.
 */
const stayedOn = ({ empty, tolerance }: StandMemory, scale: ScaleMemory, nearest: number): number | null => {
  const { track } = scale;
  if (empty === null || nearest <= Math.max(within(scale), EMPTY_SHARE * tolerance)) return null;
  const seen = newest(track);
  const least = Math.min(...seen) - empty;
  if (seen.length < STILL_PERIODS || least <= 0 || Math.max(...seen) - empty - least > FALLING_SHARE * least) return null;
  return least;
};

const newest = (track: ScaleMemory['track']): readonly number[] => {
  const now = track.times.at(-1) ?? 0;
  return track.masses.slice(firstSince(track, now - Math.max(STILL_MS, STILL_PERIODS * track.period)));
};

/** What it has read for a moment without moving; shorter than a settled weight takes. `null`: it moves. */
const momentary = ({ track }: ScaleMemory): number | null => {
  const seen = newest(track);
  if (seen.length < STILL_PERIODS) return null;
  const least = Math.min(...seen);
  const most = Math.max(...seen);
  return most - least <= span(track) ? (least + most) / 2 : null;
};

const conclude = (stage: Scenery, id: InstrumentId, scale: ScaleMemory, stand: StandMemory, free: boolean): void => {
  const { level } = scale.track;
  const limit = limitOf(stand, scale);
  const ask = (why: 'shifted-up' | 'shifted-down' | 'changed-on-pan', now: number): void =>
    wantOnce(stage, `question ${stand.entry}`, { kind: 'question', body: { entry: stand.entry, why, now: mg(Math.round(now)) } });
  if (!free && stand.off === null) {
    if (Math.abs(level - stand.gross) > limit) ask(level > stand.gross ? 'shifted-up' : 'shifted-down', level);
    return;
  }
  if (!free && Math.abs(level - stand.gross) <= limit) {
    // Lifted and put back before the pan came to rest: nothing has happened.
    setScale(stage, id, { stand: { ...stand, off: null, nearest: Infinity, stayed: null, shifted: null, wasUp: null, still: null } });
    return;
  }
  if (stand.shifted !== null) return ask(stand.shifted, stand.left);
  if (stand.stayed !== null) return ask('changed-on-pan', stand.gross + stand.stayed);
  // The next vessel may stand there before the empty pan came to rest, and a light one counts as nearly nothing: what proves the lift is that the
  // pan was seen empty between.
  if (stand.empty !== null && isLeftOn(stand, scale, stand.empty, free))
    return ask('changed-on-pan', stand.gross + (free ? level - stand.empty : 0));
  const body = { vessel: stand.vessel, gross: mg(Math.round(stand.left)), within: mg(Math.round(limit)) };
  wantOnce(stage, `lift ${stand.entry}`, { kind: 'lift', body });
};
