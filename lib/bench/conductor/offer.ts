import { span } from '#lib/measure/readings/settle';
import type { LineState } from '#lib/work/batch/index';
import type { ScaleView } from '../conductor-types';
import type { DoubtReason } from '../cue';
import { wantAccept } from './accept';
import { overScene } from './answers';
import { nextWords } from './arrive';
import { blockedScene } from './blocked';
import { liftCheck, mattersMost, partPour } from './choices';
import { comesInPieces } from './doubt';
import { acceptBlock } from './hinder';
import type { PourMemory, ScaleMemory } from './memory';
import { goalOf, isFullForNow } from './parts';
import { bandOf, isOver, standingAt, type Standing } from './pour';
import type { Scene, Scenery, Words } from './stage';

/** The visible, audible, cancellable moment before a weight is accepted by itself, ms. */
export const OFFER_MS = 1500;
/** For what comes in pieces a step says nothing, so the question "only this inside?" gets longer to be heard. */
export const OFFER_PIECES_MS = 3000;

/** Standard deviations of the settled reading that the tolerance must hold. */
const UNSTEADY = 2.5;

export const offerTime = (line: LineState): number => (comesInPieces(line.plan.material.class) ? OFFER_PIECES_MS : OFFER_MS);

interface Settled {
  readonly stage: Scenery;
  readonly line: LineState;
  readonly view: ScaleView;
  readonly scale: ScaleMemory;
  readonly pour: PourMemory;
  readonly standing: Standing;
}

/** A settled pour: over, short, doubtful, held or offered. The caller has seen to it that the window stands and the vessel is right. */
export const settledScene = (stage: Scenery, line: LineState, view: ScaleView, scale: ScaleMemory, pour: PourMemory): Scene => {
  const settled: Settled = { stage, line, view, scale, pour, standing: standingAt(line, pour, scale.track.level) };
  const { net, left } = settled.standing;
  if (isOver(line, left)) return unlessBlocked(settled, () => overScene(stage, line, scale, pour, -left));
  const band = bandOf(line, scale);
  if (left > band) return shortScene(settled);
  return unlessBlocked(settled, () => {
    if (line.plan.material.class === 'hydroxide') return holdScene(settled);
    const doubts = doubtsNow(settled);
    const edge = left < -band || isTooUnsteady(line, scale);
    if (doubts.length > 0 || pour.cancelled !== null || edge || net <= 0) return askScene(settled, doubts);
    return offerScene(settled);
  });
};

const doubtsNow = ({ line, pour }: Settled): readonly DoubtReason[] => (line.plan.lot === null ? [...pour.doubts, 'no-lot'] : pour.doubts);

const unlessBlocked = ({ stage, line, view, scale, pour }: Settled, scene: () => Scene): Scene => {
  const block = acceptBlock(stage, stage.batch, line, view, scale);
  if (block === null) return scene();
  stage.memory.pour = { ...pour, offer: null };
  return blockedScene(stage, line, block);
};

/** Nearer than this many tolerances, or this share of the target, a settled pour is told that a little is missing. */
const NEAR_TOLERANCES = 6;
const NEAR_SHARE = 0.1;

const shortScene = (settled: Settled): Scene => {
  const { stage, line, view, scale, pour, standing } = settled;
  const { net, left } = standing;
  stage.memory.pour = { ...pour, offer: null };
  if (!pour.begun && isFullForNow(stage.batch, line)) return carryScene(settled);
  if (!pour.begun) return { phase: 'ready', say: readyWords(stage, line, scale, pour) };
  // The rest would not go on this scale: keep what is in and weigh the rest in another jug.
  const full = view.capacity !== null && scale.track.level + left > view.capacity;
  const choices = full ? [partPour(stage, line, scale, pour, net)] : [];
  const near = left <= Math.max(NEAR_TOLERANCES * line.plan.tolerance, NEAR_SHARE * line.plan.target);
  const block = acceptBlock(stage, stage.batch, line, view, scale);
  if (block !== null) return { ...blockedScene(stage, line, block), phase: near ? 'short' : 'pouring', doubts: pour.doubts };
  if (pour.part !== null) return partScene(settled, near);
  if (goalOf(line) < line.plan.target) return ledPart(settled);
  if (!near) return { phase: 'pouring', doubts: pour.doubts, block: full ? 'capacity' : null, choices };
  return {
    phase: 'short',
    doubts: pour.doubts,
    block: full ? 'capacity' : null,
    choices,
    goOn: { code: 'enough', hold: true, act: () => wantAccept(stage, { line, pour, scale, how: 'held', shortIsFine: true }) },
    say: { key: `short ${line.plan.id} ${scale.window?.episode ?? 0}`, code: 'short', params: { left: Math.round(left) } },
  };
};

/** One part of several: when it is about in, its card; the last part is weighed to the line's own tolerance. */
const ledPart = ({ stage, line, scale, pour, standing: { net } }: Settled): Scene => {
  const part = goalOf(line) - line.actual;
  if (net < (1 - NEAR_SHARE) * part) return { phase: 'pouring', doubts: pour.doubts };
  return {
    phase: 'short',
    doubts: pour.doubts,
    choices: [partPour(stage, line, scale, pour, net)],
    say: {
      key: `part ${line.plan.id} ${scale.window?.episode ?? 0}`,
      code: 'card',
      params: { card: 'part-pour', net: Math.round(net) },
    },
  };
};

/** A part is in the record and no more goes in: the jug is carried over, and comes back lighter. */
const carryScene = ({ stage, line, pour }: Settled): Scene => ({
  phase: 'lift',
  vessel: pour.vessel,
  say: {
    key: `carry ${line.plan.id} ${pour.zero}`,
    code: 'lift',
    params: { vessel: stage.batch.vessels[pour.vessel]?.plan.name ?? '' },
  },
});

/** Keeping a part of the hydroxide was asked for: its card alone, taken with a hold; "back" lets it go. */
const partScene = ({ stage, line, scale, pour, standing: { net } }: Settled, near: boolean): Scene => ({
  phase: near ? 'short' : 'pouring',
  doubts: pour.doubts,
  choices: [partPour(stage, line, scale, pour, net)],
  back: () => {
    stage.memory.pour = { ...pour, part: null };
  },
  say: { key: `part ${line.plan.id} ${pour.part}`, code: 'card', params: { card: 'part-pour', net: Math.round(net) } },
});

/** A line that opens on the vessel already standing is read out whole; where an error matters most, the cable is to hang free. */
const readyWords = (stage: Scenery, line: LineState, scale: ScaleMemory, pour: PourMemory): Words => {
  const key = `ready ${line.plan.id} ${pour.zero}`;
  if (scale.stand !== null) return { ...nextWords(stage.batch, line), key, code: 'same-vessel' };
  const params = { material: line.plan.material.name, left: goalOf(line) - line.actual };
  return { key, code: mattersMost(stage.batch, line) ? 'free-the-cable' : 'ready', params };
};

const askScene = ({ stage, line, scale, pour, standing }: Settled, doubts: readonly DoubtReason[]): Scene => {
  stage.memory.pour = { ...pour, offer: null };
  const reason = doubts[0] ?? (pour.cancelled === null ? 'edge' : 'cancelled');
  return {
    phase: 'ask',
    doubts,
    choices: liftCheck(stage, line, scale, pour),
    goOn: { code: 'accept', hold: false, act: () => wantAccept(stage, { line, pour, scale, how: 'go-on' }) },
    say: { key: `ask ${line.plan.id} ${reason}`, code: 'ask', params: { reason, net: Math.round(standing.net) } },
  };
};

/** Hydroxide: never by itself. The material is named, and a person holds. */
const holdScene = ({ stage, line, scale, pour, standing }: Settled): Scene => {
  stage.memory.pour = { ...pour, offer: null };
  return {
    phase: 'hold',
    doubts: pour.doubts,
    choices: liftCheck(stage, line, scale, pour),
    goOn: { code: 'accept-held', hold: true, act: () => wantAccept(stage, { line, pour, scale, how: 'held' }) },
    say: {
      key: `hold ${line.plan.id} ${scale.window?.episode ?? 0}`,
      code: 'hold',
      params: { material: line.plan.material.name, net: Math.round(standing.net) },
    },
  };
};

/** The window flickers at the edge of the noise while the weight stays where the offer found it: the moment runs on. */
export const runningOffer = (stage: Scenery, line: LineState, scale: ScaleMemory, pour: PourMemory): Scene | null => {
  const newest = scale.track.masses.at(-1);
  const { offer } = pour;
  if (offer === null || newest === undefined || pour.doubts.length > 0 || scale.track.news !== 'next') return null;
  if (Math.abs(newest - offer.level) > span(scale.track)) return null;
  return offerScene({ stage, line, scale, pour, standing: standingAt(line, pour, newest) });
};

/**
 * The settled weight itself wanders by nearly the tolerance: waiting long enough, a window that happens to be within would always come.
 * A person looks instead.
 */
const isTooUnsteady = (line: LineState, { track }: ScaleMemory): boolean => UNSTEADY * track.sigma > line.plan.tolerance;

/** Settled by the stricter rule, and the newest reading still says so: nothing has dropped in at the last moment. */
const isFirm = ({ track }: ScaleMemory): boolean =>
  track.firm && Math.abs((track.masses.at(-1) ?? Infinity) - track.level) <= Math.max(1.5 * track.division, 0.5 * span(track));

const offerScene = ({ stage, line, scale, pour, standing }: Omit<Settled, 'view'>): Scene => {
  const unseen = stage.view.unseen === true;
  const stood =
    pour.offer !== null && (!scale.track.stable || Math.abs(scale.track.level - pour.offer.level) <= span(scale.track)) ? pour.offer : null;
  // A moment that was hidden was no moment: it begins anew when the page shows the weight again.
  const offer = stood === null || (stood.unseen && !unseen) ? { since: stage.now, level: scale.track.level, unseen } : { ...stood, unseen };
  const offered = { ...pour, offer };
  stage.memory.pour = offered;
  // Only a frame that has just come and still says so: silence accepts nothing, however short it is yet.
  const heard = stage.heard === pour.instrument;
  if (heard && !unseen && stage.now - offer.since >= offerTime(line) && isFirm(scale))
    wantAccept(stage, { line, pour: offered, scale, how: 'by-itself' });
  const code = comesInPieces(line.plan.material.class) ? 'only-material' : 'offer';
  return {
    phase: 'offer',
    offerSince: unseen ? stage.now : offer.since,
    choices: liftCheck(stage, line, scale, pour),
    goOn: { code: 'accept', hold: false, act: () => wantAccept(stage, { line, pour: offered, scale, how: 'go-on' }) },
    back: () => {
      stage.memory.pour = { ...offered, offer: null, cancelled: scale.track.level };
    },
    say: {
      key: `offer ${line.plan.id} ${offer.since}`,
      code,
      params: { material: line.plan.material.name, net: Math.round(standing.net) },
    },
  };
};
