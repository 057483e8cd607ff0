import type { InstrumentId, LineId, VesselId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import type { BatchState, Contribution } from '#lib/work/batch/index';
import type { ScaleMemory, StandMemory } from './memory';
import { setScale, wantOnce, within, type Scenery } from './stage';
import { threshold } from './zero';

/** A shift up for longer than this before a lift was no hand taking hold, ms. */
const UP_LONGEST = 500;
/** A vessel being lifted reads less for as long as the scale needs, and not longer. */
const DOWN_RISES = 1.5;
const DOWN_MORE = 600;

/** Newest accepted weight that is provisional and stands on each pan by the record. */
export const standOf = (batch: BatchState, id: InstrumentId, scale: ScaleMemory): StandMemory | null => {
  const pan = batch.pans[id];
  if (pan === undefined) return null;
  let newest: { readonly one: Contribution; readonly line: LineId; readonly tolerance: number } | null = null;
  for (const line of Object.values(batch.lines)) {
    for (const one of line.contributions) {
      const stands = one.provisional && one.struck === null && one.vessel === pan.vessel && one.weighed?.instrument === id;
      if (stands && (newest === null || one.version > newest.one.version)) {
        newest = { one, line: line.plan.id, tolerance: line.plan.tolerance };
      }
    }
  }
  if (newest === null || newest.one.weighed === null) return null;
  if (scale.stand?.entry === newest.one.entry) return scale.stand;
  return {
    entry: newest.one.entry,
    vessel: newest.one.vessel,
    line: newest.line,
    gross: newest.one.weighed.gross,
    tolerance: newest.tolerance,
    empty: scale.emptySeen ? scale.empty : null,
    up: null,
    down: null,
    left: newest.one.weighed.gross,
    off: null,
    nearest: Infinity,
    shifted: null,
  };
};

/** Watches one accepted vessel until it is lifted; a shift before the lift, or a pan that does not come back to empty, is asked about. */
export const watchStand = (stage: Scenery, id: InstrumentId): void => {
  const scale = stage.memory.scales[id];
  const stand = scale?.stand ?? null;
  if (scale === undefined || stand === null || scale.stop !== null || isPouredOnto(stage, stand.vessel, id)) return;
  const mass = scale.track.masses.at(-1);
  if (mass === undefined || scale.track.news === 'out-of-range') return;
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

const limitOf = (stand: StandMemory, scale: ScaleMemory): number => Math.max(within(scale), 0.3 * stand.tolerance);

const freed = (stand: StandMemory, scale: ScaleMemory, mass: number, now: number): StandMemory => {
  const nearest = Math.min(stand.nearest, Math.abs(mass - (stand.empty ?? scale.empty)));
  if (stand.off !== null) return nearest === stand.nearest ? stand : { ...stand, nearest };
  const up = stand.up !== null && now - stand.up > UP_LONGEST;
  const down = stand.down !== null && now - stand.down > DOWN_RISES * scale.track.rise + DOWN_MORE;
  return { ...stand, off: now, nearest, shifted: up ? 'shifted-up' : down ? 'shifted-down' : null };
};

const standing = (stand: StandMemory, scale: ScaleMemory, mass: number, now: number): StandMemory => {
  if (stand.off !== null) return stand;
  const limit = limitOf(stand, scale);
  const difference = mass - stand.gross;
  const up = difference > limit ? (stand.up ?? now) : null;
  const down = difference < -limit ? (stand.down ?? now) : null;
  const left = scale.track.stable ? scale.track.level : stand.left;
  return up === stand.up && down === stand.down && left === stand.left ? stand : { ...stand, up, down, left };
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
    setScale(stage, id, { stand: { ...stand, off: null, nearest: Infinity, shifted: null } });
    return;
  }
  if (stand.shifted !== null) return ask(stand.shifted, stand.left);
  // The next vessel may stand there before the empty pan came to rest, and a light one counts as nearly nothing: what proves the lift is that the
  // pan was seen empty between.
  if (stand.empty !== null && stand.nearest > within(scale)) return ask('changed-on-pan', stand.gross + (free ? level - stand.empty : 0));
  const body = { vessel: stand.vessel, gross: mg(Math.round(stand.left)), within: mg(Math.round(limit)) };
  wantOnce(stage, `lift ${stand.entry}`, { kind: 'lift', body });
};
