import type { BlockReason, CuePhase } from '#lib/bench/cue';

/**
 * The shape of the whole screen, told apart before it can be read: bare = pour or wait; within = brackets; calm and red = a slab off the
 * top edge (over, inside or outside the limits); lost = hatched; held = an octagon.
 */
export type Shape = 'bare' | 'within' | 'calm' | 'red' | 'lost' | 'held';

/** What the large number is. */
export type NumberKind = 'left' | 'planned' | 'recorded' | 'changed' | 'gross' | 'apart' | 'since' | 'portion' | 'out' | 'words' | 'none';

export interface Seen {
  readonly phase: CuePhase | null;
  readonly block: BlockReason | null;
  /** Milligrams; `null`: no fresh number stands. */
  readonly left: number | null;
  readonly tolerance: number | null;
  readonly red: boolean;
  /** No connection, or nothing heard for three seconds. */
  readonly offline: boolean;
  /** Joining is held by something that was not overridden. */
  readonly joiningHeld: boolean;
  /** A portion was weighed and waits for a person. */
  readonly portioned?: boolean;
}

const WEIGHING: ReadonlySet<CuePhase> = new Set([
  'waiting-vessel',
  'strange-vessel',
  'settling-vessel',
  'ready',
  'pouring',
  'settling',
  'short',
  'offer',
  'ask',
  'hold',
  'over',
  'take-out',
  'lift',
  'question',
  'returning',
  'no-weight',
  'blocked',
  'by-hand',
]);
/** Phases whose number does not depend on the running pour. */
const OWN_NUMBER: Readonly<Partial<Record<CuePhase, NumberKind>>> = {
  idle: 'gross',
  done: 'gross',
  'strange-vessel': 'gross',
  gate: 'planned',
  'choose-lot': 'planned',
  'waiting-vessel': 'planned',
  'settling-vessel': 'planned',
  'by-hand': 'planned',
  remedy: 'gross',
  resume: 'recorded',
  question: 'changed',
  temperatures: 'apart',
  joining: 'apart',
  patterns: 'apart',
  trouble: 'since',
  trace: 'since',
  'pouring-moulds': 'since',
};
/** A person must answer, and nothing goes on before. */
const STOPS: ReadonlySet<CuePhase> = new Set(['resume', 'question', 'gate', 'strange-vessel']);
/** These blocks leave no weight to show; the others only keep it from being accepted. */
const NO_NUMBER: ReadonlySet<BlockReason> = new Set([
  'late',
  'lost',
  'suspect',
  'overload',
  'underload',
  'unit-changed',
  'tare-pressed',
  'after-stall',
]);

export const isWeighing = (phase: CuePhase | null): boolean => phase !== null && WEIGHING.has(phase);

export const numberKind = ({ phase, block, left, offline, portioned = false }: Seen): NumberKind => {
  if (offline) return 'words';
  if (phase === null) return 'none';
  if (phase === 'no-weight' || (block !== null && NO_NUMBER.has(block))) return 'words';
  // Done by a person's word where no scale tells it.
  if (phase === 'take-out' && left === null) return 'out';
  // While a vessel waits to be lifted, the line after it is what comes.
  if (phase === 'lift' && left === null) return 'planned';
  if (phase === 'pouring-moulds' && left !== null) return 'left';
  if (portioned) return 'portion';
  return OWN_NUMBER[phase] ?? (left === null ? 'words' : 'left');
};

export const shapeOf = (seen: Seen): Shape => {
  const { phase, block, left, tolerance, red, joiningHeld } = seen;
  const kind = numberKind(seen);
  if (kind === 'words') return phase === 'away' ? 'held' : 'lost';
  if (phase === 'away' || (phase !== null && STOPS.has(phase)) || joiningHeld) return 'held';
  if (kind !== 'left' || left === null || tolerance === null) return block === null ? 'bare' : 'held';
  if (left < -tolerance) return red ? 'red' : 'calm';
  return left <= tolerance ? 'within' : 'bare';
};
