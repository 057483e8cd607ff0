import type { BarsPhase, BarsWhy, Pan } from './types';

/** What a round of weighing remembers between two looks. Plain data. Masses in mg, times in monotonic ms. */
export interface RoundMemory {
  /** What the free pan reads; `null`: it is to be seen free first. */
  readonly zero: number | null;
  /** The settled bar that is offered. */
  readonly offer: { readonly episode: number; readonly since: number } | null;
  /** Taken, and still on the pan. */
  readonly taken: { readonly net: number } | null;
  /** A person said "back" to this settled weight, or the record refused it: it is not offered again. */
  readonly refused: number | null;
}

export const NEW_ROUND: RoundMemory = { zero: null, offer: null, taken: null, refused: null };

/** What is known beside the pan. */
export interface Around {
  /** Somebody leads the bench. */
  readonly led: boolean;
  /** Its page does not show the weight just now; absent: it does. */
  readonly unseen?: boolean;
  /** A batch is being weighed here. */
  readonly busy: boolean;
  /** Highest settled weight used up in this boot. */
  readonly spent: number;
  readonly expected: { readonly low: number; readonly high: number } | null;
  /** Every bar of the round is weighed. */
  readonly over: boolean;
}

export interface Look {
  readonly memory: RoundMemory;
  readonly phase: BarsPhase;
  readonly why: BarsWhy | null;
  readonly net: number | null;
  readonly acceptsIn: number | null;
  /** Settled, visible long enough and like it should be: to be taken by itself now. */
  readonly take: boolean;
}

/** So long an offer is visible before it is taken. */
const OFFER_MS = 1_500;
/** Least that counts as a bar: ten divisions, and two grams. */
const LEAST_DIVISIONS = 10;
const LEAST = 2_000;
/** The empty pan is followed this far and no further. */
const FOLLOW = 3;

const look = (memory: RoundMemory, phase: BarsPhase, more: Partial<Omit<Look, 'memory' | 'phase'>> = {}): Look => ({
  memory,
  phase,
  why: null,
  net: null,
  acceptsIn: null,
  take: false,
  ...more,
});

const leastOf = ({ division }: Pan): number => Math.max(LEAST_DIVISIONS * division, LEAST);

/** What the pan reads free, followed while it is free; `null` while nobody has seen it so. */
const zeroFrom = (memory: RoundMemory, { settled, division, empty, emptySeen }: Pan): number | null => {
  if (settled === null) return memory.zero;
  const { gross } = settled;
  if (memory.zero !== null) return Math.abs(gross - memory.zero) <= FOLLOW * division ? gross : memory.zero;
  return emptySeen && Math.abs(gross - empty) <= FOLLOW * division ? gross : null;
};

/**
 * One look at the pan: nothing is taken but from a fresh, settled, unsuspect reading of a bar on a pan that was seen free before it, once,
 * while somebody leads the bench; and by itself only when it weighs what it should. Pure.
 */
export const lookAt = (before: RoundMemory, pan: Pan | null, around: Around, now: number): Look => {
  if (around.busy) return look(NEW_ROUND, 'busy');
  // In the moment that a frame is late nobody changes the zero unseen: a tare with the bar on the pan leaves no bar to be taken.
  if (pan?.why === 'late') return look({ ...before, offer: null }, 'no-weight', { why: 'lost' });
  if (pan === null || pan.why !== null) return look({ ...before, zero: null, offer: null }, 'no-weight', { why: pan?.why ?? 'lost' });
  const zero = zeroFrom(before, pan);
  const memory = { ...before, zero };
  if (pan.settled === null) return look({ ...memory, offer: null }, zero === null ? 'empty' : memory.taken === null ? 'settling' : 'taken');
  if (zero === null) return look({ ...memory, offer: null }, 'empty');
  const net = pan.settled.gross - zero;
  if (net < -FOLLOW * pan.division) return look({ ...NEW_ROUND, refused: memory.refused }, 'empty', { why: 'underload' });
  if (net <= leastOf(pan)) return look({ ...memory, offer: null, taken: null }, around.over ? 'done' : 'put-on');
  return onPan(memory, pan, { net, episode: pan.settled.episode }, around, now);
};

const onPan = (
  memory: RoundMemory,
  pan: Pan,
  { net, episode }: { readonly net: number; readonly episode: number },
  { led, unseen = false, spent, expected, over }: Around,
  now: number,
): Look => {
  if (memory.taken !== null) {
    const same = Math.abs(net - memory.taken.net) <= pan.within;
    return look({ ...memory, offer: null }, same ? 'taken' : 'changed', { net });
  }
  if (over) return look({ ...memory, offer: null }, 'done', { net });
  const ask = (why: BarsWhy): Look => look({ ...memory, offer: null }, 'ask', { net, why });
  if (episode <= spent) return ask('used-up');
  if (memory.refused === episode) return ask('refused');
  if (expected !== null && (net < expected.low - pan.within || net > expected.high + pan.within)) return ask('unlike');
  if (!led) return ask('not-led');
  // A moment that nobody sees does not run.
  const offer = !unseen && memory.offer?.episode === episode ? memory.offer : { episode, since: now };
  const left = OFFER_MS - (now - offer.since);
  return look({ ...memory, offer }, 'offer', { net, acceptsIn: Math.max(0, Math.round(left)), take: left <= 0 });
};
