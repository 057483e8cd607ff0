import type { BenchCue } from '#lib/bench/cue';
import type { ScaleRole } from '#lib/measure/instrument';
import type { IntentWant } from '#lib/protocol/intent';
import type { BatchState } from '#lib/work/batch/index';
import type { ModelWorld } from '#tests/support/model/world';
import { wantOf } from './wishes';

/** What the maker does about what the bench shows: something with the hands, something said at the screen, or neither; and how long it takes. */
export interface Move {
  readonly hands?: (() => void) | undefined;
  readonly want?: IntentWant | null;
  readonly ms: number;
}

export interface Sight {
  readonly cue: BenchCue;
  readonly batch: BatchState | null;
  readonly world: ModelWorld;
  readonly now: number;
  readonly plan: string;
  /** From 0 to 1: for what a person might do one way or the other. */
  readonly mood: number;
}

const PAUSE = 700;
const SETTLES = 2_000;

/** The next sensible thing, by somebody who does as the bench says. */
export const nextMove = (sight: Sight): Move => {
  const { cue, batch, plan } = sight;
  if (batch === null || batch.status === 'closed' || batch.status === 'abandoned') {
    return { want: { kind: 'start', plan, lots: {} }, ms: PAUSE };
  }
  if (batch.status === 'parked') return { want: { kind: 'take-up', batch: batch.id, note: '' }, ms: PAUSE };
  return (MOVES[cue.phase] ?? wait)(sight);
};

type Mover = (sight: Sight) => Move;

const wait: Mover = () => ({ ms: SETTLES });
const goOn: Mover = ({ cue }) => ({
  want: cue.goOn === null ? null : { kind: 'press', key: 'go-on', hold: cue.goOn.hold },
  ms: PAUSE,
});

/** One of the cards that can be taken, the first more often than others. */
const card: Mover = ({ cue, mood }) => {
  const open = cue.cards.flatMap(({ code, enabled }, index) => (enabled ? [{ code, index }] : []));
  const chosen = open[Math.floor(mood * mood * open.length)];
  return { want: chosen === undefined ? null : { kind: 'take-card', card: chosen.index, code: chosen.code, hold: true }, ms: PAUSE };
};

const roleOf = ({ cue, batch }: Sight): ScaleRole => (cue.line === null ? null : batch?.lines[cue.line]?.plan.scale) ?? 'main';
const isLoss = ({ cue, batch }: Sight): boolean => cue.line !== null && batch?.lines[cue.line]?.plan.mode === 'loss';

const bring: Mover = (sight) => {
  const { cue, world, now } = sight;
  const role = roleOf(sight);
  const wanted = isLoss(sight) ? 'bottle' : (cue.vessel ?? 'pot');
  const standing = world.pans[role].vessel;
  if (standing === wanted) return { ms: SETTLES };
  if (standing !== null) return { hands: () => lift(sight, role), ms: SETTLES };
  const elsewhere = world.whereIs(wanted);
  return { hands: () => (elsewhere === null ? world.setDown(wanted, role, now) : lift(sight, elsewhere)), ms: SETTLES };
};

const pour: Mover = (sight) => {
  const { cue, batch, world, now } = sight;
  const left = cue.left ?? 0;
  const plan = cue.line === null ? undefined : batch?.lines[cue.line]?.plan;
  const role = roleOf(sight);
  if (cue.cards.length > 0 && cue.block === 'capacity') return card(sight);
  if (cue.phase !== 'short' && Math.abs(left) <= (plan?.tolerance ?? 0)) return { ms: SETTLES };
  const { capacity } = world.pans[role];
  const room = capacity - world.loadOf(role, now);
  const mass = isLoss(sight) ? 0 - left : Math.min(left, room - 20_000);
  return { hands: () => world.pour(role, mass, 1_200, now), ms: SETTLES + 1_200 };
};

const liftNamed: Mover = (sight) => {
  const role = sight.world.whereIs(sight.cue.vessel ?? '') ?? (isLoss(sight) ? roleOf(sight) : null) ?? 'main';
  return { hands: () => lift(sight, role), ms: SETTLES };
};

/** Lifted; what a jug carries goes where the plan says. */
const lift = ({ world, batch, now }: Sight, role: ScaleRole): void => {
  const { vessel } = world.pans[role];
  world.lift(role, now);
  const into = Object.values(batch?.lines ?? {}).find(({ plan }) => plan.vessel === vessel)?.plan.into;
  const from = vessel === null ? undefined : world.vessels.get(vessel);
  const recorded = vessel === null ? 0 : (batch?.vessels[vessel as keyof typeof batch.vessels]?.contents ?? 0);
  if (into === undefined || from === undefined || recorded === 0) return;
  const to = world.vessels.get(into);
  const moved = Math.round(from.contents * 0.998);
  from.contents -= moved;
  if (to !== undefined) to.contents += moved;
};

const strange: Mover = (sight) => {
  const role = roleOf(sight);
  const right = sight.world.pans[role].vessel === (isLoss(sight) ? 'bottle' : sight.cue.vessel);
  return right ? card(sight) : { hands: () => lift(sight, role), ms: SETTLES };
};

/** Cables back in, the scale's own tare undone. */
const mend: Mover = (sight) => {
  const { cue, world, now } = sight;
  const role = roleOf(sight);
  const pan = world.pans[role];
  if (pan.lost || pan.silent) return { hands: () => Object.assign(pan, { lost: false, silent: false }), ms: SETTLES };
  if (cue.block === 'tare-pressed' && cue.goOn === null) {
    const free = pan.vessel !== null;
    return { hands: () => (free ? lift(sight, role) : world.pressTare(role, now)), ms: SETTLES };
  }
  if (cue.cards.length > 0) return card(sight);
  return cue.goOn === null ? { ms: SETTLES } : goOn(sight);
};

const typed: Mover = ({ batch, plan }) => ({
  want: wantOf({ want: 'type-weight', aim: 'within', readBack: true, held: true }, { batch, plan, turn: 0 }),
  ms: PAUSE,
});

const lot: Mover = ({ batch, plan, now }) => ({ want: wantOf({ want: 'choose-lot' }, { batch, plan, turn: now }), ms: PAUSE });

/** What the bench leads of parts and moulds, whichever way it is weighed; a batch without them is closed. */
function intoMoulds(sight: Sight): Move {
  const { cue, world, now, mood } = sight;
  const at = cue.portion?.at;
  if (cue.portion?.job === undefined || at === 'done' || mood > 0.97) return { want: { kind: 'close' }, ms: PAUSE };
  if (at === 'set-down' || at === 'off') return bring(sight);
  if (at === 'clear' || at === 'strange') return { hands: () => lift(sight, 'main'), ms: SETTLES };
  if (at === 'offer' || at === 'more') return goOn(sight);
  if (at !== 'stands') return mend(sight);
  const mass = Math.round((cue.left ?? 60_000) * (cue.portion.job.by === 'loss' ? -0.5 : 1));
  return { hands: () => world.pour('main', mass, 900, now), ms: SETTLES + 900 };
}

const MOVES: Partial<Record<BenchCue['phase'], Mover>> = {
  resume: card,
  gate: goOn,
  'choose-lot': lot,
  'waiting-vessel': bring,
  'strange-vessel': strange,
  ready: pour,
  pouring: pour,
  short: pour,
  offer: wait,
  ask: goOn,
  hold: goOn,
  over: card,
  lift: liftNamed,
  question: card,
  away: goOn,
  returning: (sight) => (sight.cue.cards.length > 0 ? card(sight) : goOn(sight)),
  'no-weight': mend,
  blocked: mend,
  'by-hand': typed,
  temperatures: card,
  joining: card,
  trace: card,
  patterns: card,
  trouble: card,
  'pouring-moulds': intoMoulds,
};
