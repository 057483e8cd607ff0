import { mg, type Milligrams } from '#lib/units/mass';
import { dwell, firstSince, span } from '#lib/measure/readings/settle';
import { isRed } from '#lib/work/batch/red';
import type { BenchCue, Card } from '../cue';
import { signOf } from './accept';
import { IDLE_CUE } from './blank';
import { spentEpisode } from './listen';
import type { PourMemory, ScaleMemory } from './memory';
import { offerTime } from './offer';
import { goalOf } from './parts';
import { isLate, within, type Scene, type Scenery } from './stage';

const whole = (value: number): Milligrams => mg(Math.round(value));

/** The scene in numbers, for the screens. A mass is there only while a fresh one stands behind it. */
export const cueOf = (stage: Scenery, scene: Scene): BenchCue => {
  const { memory, now } = stage;
  const line = scene.line ?? null;
  const scale = scene.instrument === undefined || scene.instrument === null ? undefined : memory.scales[scene.instrument];
  const pour = line !== null && memory.pour !== null && memory.pour.line === line.plan.id ? memory.pour : null;
  const cards: readonly Card[] = (scene.choices ?? []).map(({ card }) => card);
  const goOn = scene.goOn ?? null;
  return {
    ...IDLE_CUE,
    phase: scene.phase,
    line: line?.plan.id ?? null,
    vessel: scene.vessel ?? line?.plan.vessel ?? null,
    instrument: scene.instrument ?? null,
    target: line === null ? null : goalOf(line),
    tolerance: line?.plan.tolerance ?? null,
    ...(line === null ? {} : scale === undefined ? entered(stage, scene, line) : amounts(stage, scene, line, scale, pour)),
    ...(scene.takeOut === undefined ? {} : takenOut(scene.takeOut)),
    hand: handOf(stage),
    holdSound: pour !== null && pour.begun && pour.lifted === null && scale !== undefined && isLate(scale, now),
    acceptsIn:
      scene.offerSince === undefined || scene.offerSince === null || line === null
        ? null
        : acceptsIn(offerTime(line), now - scene.offerSince),
    doubts: scene.doubts ?? [],
    block: scene.block ?? null,
    cards,
    selected: Math.min(memory.choice.selected, cards.length - 1),
    goOn: goOn === null ? (canStep(cards) ? { code: 'next-card', hold: false } : null) : { code: goOn.code, hold: goOn.hold },
    gate: scene.gate ?? null,
    joining: scene.joining ?? null,
    portion: scene.portion ?? null,
    say: memory.say,
    episode: episodeShown(stage, scale),
  };
};

/** One card that is closed is nothing to go on to. */
const canStep = (cards: readonly Card[]): boolean => cards.length > 1 || cards[0]?.enabled === true;

/** An over-pour that is in the record, typed perhaps: by how much it is over no scale has to say again. */
const entered = ({ batch: { over } }: Scenery, { phase }: Scene, { plan, actual }: NonNullable<Scene['line']>) =>
  phase === 'over' && over?.line === plan.id ? { total: actual, left: mg(plan.target - actual), red: over.red } : {};

/** What is to come out in the place of what is to come in. */
const takenOut = ({ target, tolerance, taken }: NonNullable<Scene['takeOut']>) => {
  const total = taken === null ? null : whole(taken);
  const of = { target: whole(target), tolerance: whole(tolerance), red: false, overshoot: null, easeOff: false } as const;
  return { ...of, poured: total, total, left: total === null ? null : mg(of.target - total) };
};

const handOf = ({ view: { hand } }: Scenery): BenchCue['hand'] => (hand === undefined ? null : { seen: hand.seen, lag: hand.lag });

const acceptsIn = (of: number, gone: number) => ({ left: Math.max(0, of - gone), of });

/** The episode a press would use up: never one the record has used up already. */
const episodeShown = (stage: Scenery, scale: ScaleMemory | undefined): number => {
  const spent = spentEpisode(stage, stage.batch);
  const window = scale?.window ?? null;
  if (window !== null && window.episode > spent) return window.episode;
  return Math.max(stage.memory.episode, spent) + 1;
};

type Amounts = Pick<BenchCue, 'poured' | 'total' | 'left' | 'red' | 'overshoot' | 'easeOff' | 'settle'>;

const amounts = (stage: Scenery, scene: Scene, line: NonNullable<Scene['line']>, scale: ScaleMemory, pour: PourMemory | null): Amounts => {
  const view = stage.view.scales.find((one) => one.id === scene.instrument);
  const fresh = view?.freshness === 'fresh' && scale.stop === null && scale.track.news !== 'out-of-range' && !isLate(scale, stage.now);
  const newest = scale.track.masses.at(-1);
  const settle = scene.phase === 'settling' || scene.phase === 'settling-vessel' ? settledShare(scale) : null;
  if (!fresh || newest === undefined || pour === null || pour.lifted !== null || isCarriedOff(stage, scale, newest)) {
    const late = view?.freshness === 'fresh' && pour !== null && pour.begun && pour.lifted === null && isLate(scale, stage.now);
    return { poured: null, total: null, left: null, red: false, overshoot: late ? whole(pour.overshoot) : null, easeOff: false, settle };
  }
  const poured = whole(signOf(line) * (newest - pour.zero));
  const total = mg(line.actual + poured);
  const over = total > line.plan.target + line.plan.tolerance;
  const goal = goalOf(line);
  return {
    poured,
    total,
    // A part may be a little more than was meant: the rest is so much less, and nothing is over.
    left: mg(goal < line.plan.target && !over ? Math.max(0, goal - total) : goal - total),
    red: over && isRed(stage.batch, line, total),
    overshoot: pour.begun ? whole(pour.overshoot) : null,
    easeOff: pour.easedOff,
    settle,
  };
};

/** Nobody is there to follow a lift: on a free pan stands nothing of the line, to be read as so much left. */
const isCarriedOff = ({ batch }: Scenery, scale: ScaleMemory, newest: number): boolean =>
  batch.away !== null && Math.abs(newest - scale.empty) <= Math.max(within(scale), 10 * scale.track.division);

/** How far the newest frames have come towards a settled window, thousandths. */
const settledShare = ({ track }: ScaleMemory): number => {
  const now = track.times.at(-1);
  const newest = track.masses.at(-1);
  if (now === undefined || newest === undefined) return 0;
  const limit = 1.05 * span(track);
  const wanted = dwell(track);
  let least = newest;
  let most = newest;
  let since = now;
  for (let index = track.times.length - 1; index >= firstSince(track, Math.max(track.dwellFrom, now - wanted)); index -= 1) {
    const mass = track.masses[index] ?? newest;
    least = Math.min(least, mass);
    most = Math.max(most, mass);
    if (most - least > limit) break;
    since = track.times[index] ?? since;
  }
  return Math.min(999, Math.round((1000 * (now - since)) / wanted));
};
