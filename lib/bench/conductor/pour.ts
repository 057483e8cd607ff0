import { easeOffNow, flowOf, overshootOf, STILL } from '#lib/measure/readings/flow';
import { dwell, span } from '#lib/measure/readings/settle';
import { RECOGNISED_WITHIN } from '#lib/work/batch/alike';
import type { BatchState, LineState, PanState } from '#lib/work/batch/index';
import type { ScaleView } from '../conductor-types';
import type { DoubtReason } from '../cue';
import { signOf } from './accept';
import { POURED_SHARE } from './bottle';
import { comesInPieces, followDoubts, followFall } from './doubt';
import { atRest, stopping } from './eased';
import type { PourMemory, ScaleMemory } from './memory';
import { looksLike } from './recognise';
import { within, type Scenery } from './stage';
import { strayedDoubts } from './strayed';
import { threshold } from './zero';

/** Where the settled pour stands against its target. Masses in mg. */
export interface Standing {
  /** Net of the running pour. */
  readonly net: number;
  /** Target − (what the line has + net). */
  readonly left: number;
}

export const standingAt = (line: LineState, pour: PourMemory, mass: number): Standing => {
  const net = signOf(line) * (mass - pour.zero);
  return { net, left: line.plan.target - line.actual - net };
};

/** Within the tolerance, and not so near its edge that rounding decides: there a little more is asked for, or a person looks. */
export const bandOf = (line: LineState, scale: ScaleMemory): number =>
  Math.max(line.plan.tolerance - 0.25 * scale.track.division, 0.5 * line.plan.tolerance);

export const isOver = (line: LineState, left: number): boolean => left + line.plan.tolerance < 0;

/** The memory of this pour: made anew whenever the record's zero is another one. */
export const pourFor = (stage: Scenery, line: LineState, view: ScaleView, pan: PanState): PourMemory => {
  const { pour } = stage.memory;
  const strayed = strayedDoubts(pan, stage.memory.scales[view.id]);
  if (pour !== null && pour.line === line.plan.id && pour.vessel === pan.vessel && pour.instrument === view.id && pour.zero === pan.zero) {
    return strayed.every((one) => pour.doubts.includes(one)) ? pour : { ...pour, doubts: [...pour.doubts, ...strayed] };
  }
  return {
    line: line.plan.id,
    vessel: pan.vessel,
    instrument: view.id,
    zero: pan.zero,
    since: stage.now,
    stepsFrom: stage.now - 1000,
    begun: false,
    highest: 0,
    stood: 0,
    doubts: stage.memory.inherited[view.id] === pan.zero ? ['after-replug'] : strayed,
    fallen: false,
    steps: [],
    bulges: [],
    offer: null,
    cancelled: null,
    part: null,
    crossed: null,
    lifted: null,
    ways: [],
    most: pan.zero,
    check: null,
    overshoot: 0,
    easedOff: false,
    eased: null,
  };
};

/** What stands there when its weight is crossed out is not offered again before it moves, whatever the newest window says. */
export const withCrossedOut = (line: LineState, scale: ScaleMemory, pour: PourMemory): PourMemory => {
  const last = line.contributions.at(-1);
  const by = last?.weighed == null || last.vessel !== pour.vessel ? null : last.struck;
  if (last?.weighed == null || by === null || pour.crossed?.by === by) return pour;
  const crossed = { by, gross: last.weighed.gross, moved: false };
  return { ...pour, crossed, offer: null, cancelled: scale.track.masses.at(-1) ?? last.weighed.gross };
};

/** The weight on the pan is the one that was crossed out: it has been answered. */
export const standsCrossedOut = ({ crossed }: PourMemory, scale: ScaleMemory): boolean =>
  crossed !== null && !crossed.moved && Math.abs(scale.track.level - crossed.gross) <= within(scale);

/** The record still counts this pour, from the zero it was begun with. */
export const isRunning = (batch: BatchState, { line, vessel, instrument, zero }: PourMemory): boolean => {
  const pan = batch.pans[instrument];
  return batch.open === line && pan?.line === line && pan.vessel === vessel && pan.zero === zero;
};

/** The pour after the newest frame of its scale. Call only when nothing hinders the scale. */
export const followPour = (stage: Scenery, line: LineState, scale: ScaleMemory, pour: PourMemory): PourMemory => {
  const mass = scale.track.masses.at(-1);
  if (mass === undefined) return pour;
  const carried = followLift(stage, line, scale, pour, mass);
  if (carried.lifted !== null) return carried;
  const settled = scale.track.stable ? standingAt(line, carried, scale.track.level) : null;
  const of = doubtsOf(line, scale, settled);
  const fallen = followFall(carried, scale, of, signOf(line) * (mass - carried.zero));
  const known = followDoubts(fallen, scale, of, settled?.net ?? null);
  return followFlow(stage, line, scale, followDrift(line, scale, known, stage.now), mass, settled);
};

const doubtsOf = (line: LineState, scale: ScaleMemory, settled: Standing | null) => ({
  tolerance: line.plan.tolerance,
  // A bottle is tilted, spooned from or lifted: every portion is a step.
  pieces: line.plan.mode === 'loss' || comesInPieces(line.plan.material.class),
  over: settled !== null && isOver(line, settled.left),
  within: settled !== null && settled.left <= bandOf(line, scale),
  sign: signOf(line),
});

/** A scale known to wander is trusted only as long as its wandering stays small against the tolerance. */
const followDrift = (line: LineState, scale: ScaleMemory, pour: PourMemory, now: number): PourMemory => {
  const rate = Math.abs(scale.drift?.rate ?? 0);
  const { division } = scale.track;
  const drifting = rate > division / 60_000 && rate * (now - pour.since) > Math.max(division, 0.3 * line.plan.tolerance);
  return drifting && !pour.doubts.includes('drift') ? { ...pour, doubts: [...pour.doubts, 'drift'] } : pour;
};

const followFlow = (
  stage: Scenery,
  line: LineState,
  scale: ScaleMemory,
  pour: PourMemory,
  mass: number,
  settled: Standing | null,
): PourMemory => {
  const { track } = scale;
  const still = Math.max(2 * track.division, span(track));
  const { net, left } = standingAt(line, pour, mass);
  const begun = pour.begun || net > still;
  const unmoved = (level: number | null): number | null => (level !== null && Math.abs(mass - level) > still ? null : level);
  const [cancelled, part] = [unmoved(pour.cancelled), unmoved(pour.part)];
  if (settled !== null) {
    // By what has settled only: lifted and set down again it is still the same.
    const moved = pour.crossed !== null && Math.abs(track.level - pour.crossed.gross) > still ? { ...pour.crossed, moved: true } : null;
    return {
      ...pour,
      begun,
      cancelled,
      part,
      crossed: moved ?? pour.crossed,
      overshoot: 0,
      easedOff: false,
      eased: atRest(pour.eased, net),
    };
  }
  const seen = flowOf(track);
  const flow = signOf(line) === 1 ? seen : STILL;
  const learnt = stage.view.hand?.lag ?? 0;
  const easedOff = begun && (pour.easedOff || easeOffNow(flow, track, left, learnt));
  const coming = overshootOf(flow, track);
  const flows = flow.rate * 1000 > track.division;
  const told = easedOff && !pour.easedOff && flows ? { at: stage.now, net, coming, rate: flow.rate, rest: null } : null;
  const eased = told ?? stopping(pour.eased, { now: stage.now, net, rate: flow.rate, still, rise: track.rise });
  return { ...pour, begun, cancelled, part, overshoot: overshootOf(flow, track, learnt), easedOff, eased };
};

/** Share of the zero under which the pan counts as free; a bottle grows light, a vessel does not. */
const freeBelow = (line: LineState, scale: ScaleMemory, pour: PourMemory): number => {
  const gross = pour.zero - scale.empty;
  return threshold(scale, line.plan.mode === 'loss' ? 0.2 * gross : gross);
};

/** A pan is seen free from so near to empty on, as a share of what stood there: a quick hand and a slow scale leave some of it. */
const CLEAR_SHARE = 0.05;

/** A vessel set down again rests after its dwell. So much later it may have been another, poured into until it weighed the same, ms. */
const RETURN_MORE = 2500;

const followLift = (stage: Scenery, line: LineState, scale: ScaleMemory, pour: PourMemory, mass: number): PourMemory => {
  const off = mass - scale.empty <= freeBelow(line, scale, pour);
  if (pour.lifted === null) {
    const lifted = { gross: scale.lastLevel ?? pour.zero, most: pour.most, nearest: Math.abs(mass - scale.empty), back: null };
    if (off) return { ...pour, fallen: false, lifted, offer: null };
    const most = scale.track.stable ? scale.track.level : Math.max(pour.most, mass);
    return most === pour.most ? pour : { ...pour, most };
  }
  const since = off ? null : (pour.lifted.back ?? stage.now);
  const nearest = Math.min(pour.lifted.nearest, Math.abs(mass - scale.empty));
  if (off || !scale.track.stable) {
    const same = since === pour.lifted.back && nearest === pour.lifted.nearest;
    return same ? pour : { ...pour, lifted: { ...pour.lifted, nearest, back: since } };
  }
  const back = { ...pour, lifted: null, stood: -Infinity, stepsFrom: stage.now - 1000 };
  if (line.plan.mode === 'loss') {
    const unlike = isUnlikeBottle(stage.batch, line, scale, back, pour.lifted.gross);
    return unlike ? { ...back, doubts: [...new Set([...pour.doubts, 'return-unlike' as const])] } : back;
  }
  const difference = Math.abs(scale.track.level - pour.lifted.gross);
  if (pour.check !== null) return afterCheck(line, scale, back, Math.abs(scale.track.level - pour.check));
  const slow = stage.now - (since ?? stage.now) > dwell(scale.track) + 2 * scale.track.rise + RETURN_MORE;
  // The scale's own tare key as a pour begins reads nearly nothing, too, and a pour of the vessel's own weight brings it back to the same.
  const cleared = pour.lifted.nearest <= Math.max(within(scale), CLEAR_SHARE * (pour.lifted.gross - scale.empty));
  if (difference <= within(scale))
    return slow || !cleared ? { ...back, doubts: [...new Set([...pour.doubts, 'return-unlike' as const])] } : back;
  const { level } = scale.track;
  const most = Math.max(pour.lifted.most, pour.lifted.gross);
  // Nothing was poured yet: what looks the same may have got something in the hand, anything else is another vessel. In the middle of
  // a pour it may also carry what fell just before the lift. What is stranger than that stays off: a person says what it is.
  const apart = pour.begun ? Math.max(10 * scale.track.division, 0.1 * (pour.lifted.gross - scale.empty)) : RECOGNISED_WITHIN;
  if (level < pour.lifted.gross - apart || level > most + apart) return pour;
  return { ...back, doubts: [...new Set([...pour.doubts, 'return-unlike' as const])] };
};

/** A bottle comes back no heavier than it left, and not by the weight of the vessel it pours into. */
const isUnlikeBottle = (batch: BatchState, line: LineState, scale: ScaleMemory, pour: PourMemory, left: number): boolean => {
  const { level } = scale.track;
  if (level > left + within(scale)) return true;
  if (Object.values(batch.vessels).some((vessel) => looksLike(vessel, pour.instrument, scale))) return true;
  const into = batch.vessels[line.plan.vessel];
  if (into === undefined || into.empty === null) return false;
  const filled = level - scale.empty - into.empty - into.contents;
  return filled >= 0 && filled <= POURED_SHARE * line.plan.target;
};

/** Freed, lifted and set down again: what leaned from outside is gone, so an equal weight clears the doubts. */
const afterCheck = (line: LineState, scale: ScaleMemory, pour: PourMemory, difference: number): PourMemory => {
  const agrees = difference <= Math.max(2 * scale.track.division, 0.3 * line.plan.tolerance);
  const lasting = pour.doubts.filter((one) => OF_THE_ZERO.has(one));
  return { ...pour, check: null, steps: [], bulges: [], doubts: agrees ? lasting : [...new Set([...lasting, 'return-unlike' as const])] };
};

/** What may be wrong with what is counted from: another vessel, the scale's own key or its wandering are there after a lift as before it. */
const OF_THE_ZERO: ReadonlySet<DoubtReason> = new Set<DoubtReason>(['after-replug', 'return-unlike', 'outran', 'fell', 'drift']);
