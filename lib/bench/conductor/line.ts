import { mg } from '#lib/units/mass';
import { PRECAUTIONS } from '#lib/work/batch/precautions';
import type { LineState, PanState } from '#lib/work/batch/index';
import type { ScaleView } from '../conductor-types';
import type { BlockReason } from '../cue';
import { restlessScene } from './answers';
import { arriveScene, nextWords } from './arrive';
import { bottleStands, nameOnPan } from './bottle';
import { choice } from './choices';
import { hindrance } from './hinder';
import type { PourMemory, ScaleMemory } from './memory';
import { runningOffer, settledScene } from './offer';
import { overRatingScene } from './over-rating';
import { followPour, isOver, pourFor, standingAt, withCrossedOut } from './pour';
import { stopScene } from './stop';
import { scaleOf, within, type Scene, type Scenery } from './stage';

/** The open line: precautions, its scale, its vessel, its pour. */
export const lineScene = (stage: Scenery, line: LineState): Scene => {
  const view = scaleOf(stage.view, line);
  const at = { line, vessel: line.plan.vessel, instrument: view?.id ?? null };
  return { ...at, ...sceneOf(stage, line, view) };
};

const sceneOf = (stage: Scenery, line: LineState, view: ScaleView | null): Scene => {
  const before = beforeWeighing(stage, line);
  if (before !== null) return before;
  // A batch begun on another bench may ask for a scale this one never had: nothing to plug in, so its weight is typed.
  if (line.plan.mode === 'by-hand' || view === null) return { phase: 'by-hand', say: nextWords(stage.batch, line, true) };
  const scale = stage.memory.scales[view.id];
  const hindered = hindrance(stage, view, scale ?? null);
  const pan = stage.batch.pans[view.id];
  const set = pan !== undefined && pan.line === line.plan.id;
  if (scale === undefined || (hindered !== null && hindered !== 'late')) return hinderedScene(stage, line, view, hindered ?? 'lost');
  if (set) return pourScene(stage, line, view, scale, pan, hindered);
  if (hindered !== null) return { phase: 'blocked', block: hindered };
  return liftFirst(stage, line, scale, pan) ?? arriveScene(stage, line, view, scale);
};

/** What was weighed before still stands there: only a vessel that the line goes on filling may stay. */
const liftFirst = (stage: Scenery, line: LineState, scale: ScaleMemory, pan: PanState | undefined): Scene | null => {
  const { stand } = scale;
  const bottle = bottleStands(scale, line);
  const accepted = stand !== null && stand.off === null && !(stand.vessel === line.plan.vessel && line.plan.mode === 'gain');
  const before = pan === undefined ? undefined : stage.batch.lines[pan.line];
  if (pan === undefined || before === undefined || !(bottle || accepted)) return null;
  const words = { key: `lift ${pan.line} ${pan.zero}`, code: 'lift', params: { vessel: nameOnPan(stage.batch, before) } } as const;
  return { phase: 'lift', vessel: pan.vessel, say: words };
};

/** Hydroxide: its lot and its precautions come before anything is set down. */
const beforeWeighing = (stage: Scenery, line: LineState): Scene | null => {
  const { plan } = line;
  if (plan.material.class !== 'hydroxide') return null;
  if (plan.lot === null) {
    return { phase: 'choose-lot', block: 'no-lot', say: { key: `lot ${plan.id}`, code: 'blocked', params: { reason: 'no-lot' } } };
  }
  if (stage.batch.gateLines[plan.id] !== undefined) return null;
  const locked = overRatingScene(stage);
  if (locked !== null) return locked;
  const items = PRECAUTIONS.hydroxide;
  const confirm = (): void =>
    void stage.wants.push({ kind: 'confirm-gate', body: { gate: 'hydroxide', line: plan.id, items, held: true } });
  return {
    phase: 'gate',
    gate: { gate: 'hydroxide', items },
    goOn: { code: 'confirm-gate', hold: true, act: confirm },
    say: { key: `gate ${plan.id}`, code: 'gate', params: { gate: 'hydroxide', material: plan.material.name } },
  };
};

const hinderedScene = (stage: Scenery, line: LineState, view: ScaleView, block: BlockReason): Scene => {
  const { pour } = stage.memory;
  if (pour !== null && pour.offer !== null) stage.memory.pour = { ...pour, offer: null };
  const scale = stage.memory.scales[view.id];
  if (scale !== undefined && scale.stop !== null && block === scale.stop.why) return stopScene(stage, line, view, scale, scale.stop);
  const say = { key: `blocked ${block} ${line.plan.id}`, code: 'blocked', params: { reason: block } } as const;
  return { phase: block === 'lost' ? 'no-weight' : 'blocked', block, say };
};

const pourScene = (
  stage: Scenery,
  line: LineState,
  view: ScaleView,
  scale: ScaleMemory,
  pan: PanState,
  late: BlockReason | null,
): Scene => {
  const known = withCrossedOut(line, scale, pourFor(stage, line, view, pan));
  const pour = stage.heard === view.id && late === null ? followPour(stage, line, scale, known) : known;
  stage.memory.pour = pour;
  if (late !== null) {
    stage.memory.pour = { ...pour, offer: null };
    const over = restlessScene(line, scale, pour);
    return over === null ? { phase: pour.begun ? 'pouring' : 'ready', block: 'late', doubts: pour.doubts } : { ...over, block: 'late' };
  }
  if (pour.lifted !== null) return liftedScene(stage, line, view, scale, pour, pour.lifted);
  if (scale.track.stable && scale.window !== null) {
    const still = isOver(line, standingAt(line, pour, scale.track.level).left) ? pour : { ...pour, ways: [] };
    stage.memory.pour = still;
    return settledScene(stage, line, view, scale, still);
  }
  const running = runningOffer(stage, line, scale, pour);
  if (running !== null) return running;
  stage.memory.pour = { ...pour, offer: null };
  const over = restlessScene(line, scale, pour);
  if (over !== null) return over;
  const flowing = pour.overshoot > scale.track.division;
  return { phase: pour.begun ? (flowing ? 'pouring' : 'settling') : 'ready', doubts: pour.doubts };
};

/** Off the pan in the middle of its line: a bottle is being poured from; a vessel should come back as it left. */
const liftedScene = (
  stage: Scenery,
  line: LineState,
  view: ScaleView,
  scale: ScaleMemory,
  pour: PourMemory,
  lifted: { readonly gross: number },
): Scene => {
  if (line.plan.mode === 'loss') return { phase: 'pouring' };
  // Nothing was poured yet: whatever comes is recognised anew, and its zero taken anew.
  if (!pour.begun) return arriveScene(stage, line, view, scale);
  const name = stage.batch.vessels[pour.vessel]?.plan.name ?? '';
  const standsOther = scale.track.stable && Math.abs(scale.track.level - scale.empty) > Math.max(within(scale), 10 * scale.track.division);
  if (standsOther) {
    const params = { vessel: name, gross: mg(Math.round(scale.track.level)) };
    const take = (): void => {
      stage.memory.pour = { ...pour, lifted: null, stepsFrom: stage.now, doubts: [...new Set([...pour.doubts, 'return-unlike' as const])] };
    };
    return {
      phase: 'strange-vessel',
      block: 'wrong-vessel',
      choices: [choice('it-is-vessel', params, true, take)],
      say: { key: `strange ${line.plan.id} ${Math.round(lifted.gross)}`, code: 'strange-vessel', params: { wanted: name } },
    };
  }
  const say = {
    key: `back ${line.plan.id} ${Math.round(lifted.gross)}`,
    code: 'set-down',
    params: { vessel: name, scale: view.role },
  } as const;
  return { phase: 'waiting-vessel', say };
};
