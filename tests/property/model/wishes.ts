import type { IntentWant } from '#lib/protocol/intent';
import type { BatchState, LineState } from '#lib/work/batch/index';
import { PATTERNS } from '#lib/work/batch/pouring/types';
import { MODEL_SCALES } from '#tests/support/model/world';
import type { Wish } from './actions';

/** What the moment adds to a wish. */
export interface Moment {
  readonly batch: BatchState | null;
  readonly plan: string;
  /** A number that changes from wish to wish. */
  readonly turn: number;
}

type Asking<K extends Wish['want']> = (wish: Extract<Wish, { want: K }>, batch: BatchState, turn: number) => IntentWant | null;

const asked =
  (want: IntentWant): (() => IntentWant) =>
  () =>
    want;

/** Each as a page would send it; `null`: a page would show no such button. */
const ASKED: { readonly [K in Exclude<Wish['want'], 'start'>]: Asking<K> } = {
  strike: (wish, batch) => strike(wish, batch),
  'type-weight': (wish, batch) => typeWeight(wish, batch),
  'type-temperature': ({ use, degrees }) => ({ kind: 'type-temperature', use, value: degrees * 1_000 }),
  abandon: ({ held }) => ({ kind: 'abandon', reason: 'enough', held }),
  join: ({ held }) => ({ kind: 'join', held }),
  dissolve: ({ held }) => ({ kind: 'dissolve', held }),
  override: ({ held }) => ({ kind: 'override', reason: 'temperature-unknown', held, note: '' }),
  move: (wish, batch) => outOfVessel(wish, batch),
  withdraw: (wish, batch) => outOfVessel(wish, batch),
  lose: (wish, batch) => outOfVessel(wish, batch),
  split: (wish, batch) => outOfVessel(wish, batch),
  pour: (wish, batch) => ofThePour(wish, batch),
  'stamp-trace': asked({ kind: 'stamp-trace', mark: 'medium', note: '' }),
  'check-scale': asked({ kind: 'check-scale', instrument: MODEL_SCALES.main.id, nominal: 200_000 }),
  park: asked({ kind: 'park', reason: 'supper' }),
  'take-up': (_wish, batch) => ({ kind: 'take-up', batch: batch.id, note: '' }),
  note: (_wish, _batch, turn) => ({ kind: 'note', text: `note ${turn}` }),
  'choose-lot': (_wish, batch, turn) => chooseLot(batch, turn),
  'part-pour': asked({ kind: 'part-pour' }),
  'weigh-back': asked({ kind: 'weigh-back' }),
  away: asked({ kind: 'away' }),
  return: asked({ kind: 'return' }),
  close: asked({ kind: 'close' }),
};

/** A wish as it would be said now; `null`: it cannot be. */
export const wantOf = (wish: Wish, { batch, plan, turn }: Moment): IntentWant | null => {
  if (wish.want === 'start') return { kind: 'start', plan, lots: {} };
  return batch === null ? null : (ASKED[wish.want] as Asking<Wish['want']>)(wish, batch, turn);
};

const openLine = (batch: BatchState): LineState | undefined => (batch.open === null ? undefined : batch.lines[batch.open]);

const strike = ({ back, reason, held }: Extract<Wish, { want: 'strike' }>, batch: BatchState): IntentWant | null => {
  const poured = [...batch.pour.parts, ...batch.pour.pours, ...batch.pour.left].map(({ entry }) => entry).toReversed();
  const weighed = Object.values(batch.lines)
    .flatMap((line) => line.contributions)
    .toSorted((a, b) => b.version - a.version)
    .map(({ entry }) => entry);
  const entry = [...poured, ...weighed][back];
  return entry === undefined ? null : { kind: 'strike', entry, reason, note: 'said so', held };
};

const typeWeight = ({ aim, readBack, held }: Extract<Wish, { want: 'type-weight' }>, batch: BatchState): IntentWant | null => {
  const line = openLine(batch);
  if (line === undefined) return null;
  const { target, tolerance } = line.plan;
  const left = Math.max(100, target - line.actual);
  const net = aim === 'within' ? left : aim === 'over' ? left + 3 * tolerance : Math.max(1, left >> 1);
  const text = (net / 1_000).toFixed(3);
  return { kind: 'type-weight', line: line.plan.id, net, text, unit: 'g', readBack, part: aim === 'part', held };
};

const outOfVessel = (wish: Extract<Wish, { share: number }>, batch: BatchState): IntentWant | null => {
  const vessels = Object.values(batch.vessels);
  const from = vessels[wish.from % vessels.length];
  const to = vessels[(wish.from + 1) % vessels.length];
  if (from === undefined || to === undefined) return null;
  const mass = Math.round((from.contents * wish.share) / 100);
  const vessel = from.plan.id;
  if (wish.want === 'move') return { kind: 'move', from: vessel, to: to.plan.id, mass, residue: null };
  if (wish.want === 'withdraw') return { kind: 'withdraw', vessel, mass, to: 'waste' };
  if (wish.want === 'lose') return { kind: 'lose', vessel, mass, cause: 'spill', note: '' };
  return { kind: 'split', vessel, parts: [{ name: 'half', mass: Math.max(1, mass >> 1) }] };
};

/** Parts and moulds by hand, or by another way than the bench would lead. */
const ofThePour = ({ what, pick }: Extract<Wish, { want: 'pour' }>, batch: BatchState): IntentWant | null => {
  const mould = 1 + (pick % 2);
  const from: readonly string[] = pick % 3 === 0 ? ['pot', 'part:half'] : [pick % 3 === 1 ? 'pot' : 'part:half'];
  const mass = 10_000 * (1 + pick);
  if (what === 'pattern') return { kind: 'name-pattern', mould, pattern: PATTERNS[pick % PATTERNS.length] ?? 'plain-pour' };
  if (what === 'by gain') return { kind: 'pour-into', job: pick === 5 ? 'left:pot' : `mould:${mould}`, by: 'gain', from: [...from] };
  if (what === 'by loss') return { kind: 'pour-into', job: pick === 5 ? 'part:half' : `mould:${mould}`, by: 'loss', from: [...from] };
  if (what === 'left') return { kind: 'type-left', of: from[0] ?? 'pot', mass };
  if (what === 'photo') return { kind: 'ask-photo', of: 'top', mould };
  if (what === 'wrong') return { kind: 'stamp-trace', mark: 'wrong', note: '' };
  const parted = batch.pour.parts.some(({ struck }) => struck === null);
  return parted ? { kind: 'type-mould', mould, from: [...from], mass } : { kind: 'type-part', part: 'half', mass };
};

const chooseLot = (batch: BatchState, turn: number): IntentWant | null => {
  const line = openLine(batch);
  return line === undefined ? null : { kind: 'choose-lot', line: line.plan.id, lot: { id: `lot-${turn}`, mark: `lot ${turn}` } };
};
