import type { InstrumentId, VesselId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import { learnRise, settledFrame } from '#lib/measure/readings/settle';
import { RECOGNISED_WITHIN } from '#lib/work/batch/alike';
import type { BatchState, LineState, VesselState } from '#lib/work/batch/index';
import type { ScaleView } from '../conductor-types';
import { choice } from './choices';
import { probeLeans } from './probe';
import type { ScaleMemory } from './memory';
import { setScale, wantOnce, within, type Choice, type Scene, type Scenery } from './stage';
import { isBelowEmpty, isLoaded } from './zero';

/** Who stands on the pan, by mass. `alike`: another vessel of the plan could weigh the same. `unknown`: nobody has said what it weighs. */
type Recognised =
  | { readonly kind: 'match' }
  | { readonly kind: 'alike' | 'other'; readonly vessel: VesselState }
  | { readonly kind: 'strange' | 'unknown' };

/** Nothing is set for the line on its scale yet: wait for the vessel, recognise it, take the zero. */
export const arriveScene = (stage: Scenery, line: LineState, view: ScaleView, scale: ScaleMemory): Scene => {
  const vessel = stage.batch.vessels[line.plan.vessel];
  if (vessel === undefined) return { phase: 'blocked', block: 'wrong-vessel' };
  const names = { vessel: vessel.plan.name, scale: line.plan.scale };
  if (isBelowEmpty(scale)) return blockedBy('underload', line);
  if (!isLoaded(scale, line.plan.mode === 'loss' ? line.plan.target : vessel.empty)) {
    const elsewhere = onOtherScale(stage, line, view, vessel);
    if (elsewhere) {
      return {
        phase: 'waiting-vessel',
        block: 'other-scale',
        say: { key: `other-scale ${line.plan.id}`, code: 'other-scale', params: names },
      };
    }
    return { phase: 'waiting-vessel', say: nextWords(line, vessel) };
  }
  if (!scale.track.stable || scale.window === null) return { phase: 'settling-vessel' };
  if (probeLeans(stage, vessel.plan)) return blockedBy('probe-leaning', line);
  return recognisedScene(stage, line, view, scale, vessel);
};

const blockedBy = (block: 'underload' | 'probe-leaning', line: LineState): Scene => ({
  phase: 'blocked',
  block,
  say: { key: `blocked ${block} ${line.plan.id}`, code: 'blocked', params: { reason: block } },
});

/** The next line, read out with everything a person with full hands needs. */
export const nextWords = (line: LineState, vessel: VesselState): Scene['say'] & object => ({
  key: `next ${line.plan.id} ${line.contributions.length}`,
  code: 'next-line',
  params: {
    material: line.plan.material.name,
    target: line.plan.target - line.actual,
    vessel: vessel.plan.name,
    scale: line.plan.scale,
    lot: line.plan.lot?.mark ?? '',
  },
});

const recognisedScene = (stage: Scenery, line: LineState, view: ScaleView, scale: ScaleMemory, vessel: VesselState): Scene => {
  const found = recognise(stage.batch, line, view.id, scale);
  if (found.kind === 'match') {
    const gross = settledFrame(scale.track)?.gross ?? mg(Math.round(scale.track.level));
    setScale(stage, view.id, { track: learnRise(scale.track, scale.empty) });
    const episode = scale.window?.episode ?? 0;
    wantOnce(stage, `set ${episode}`, setVessel(stage, line, vessel, view, scale, gross));
    return { phase: 'settling-vessel' };
  }
  const wanted = vessel.plan.name;
  const choices = strangeChoices(stage, line, view, scale, vessel, found);
  if (found.kind === 'other') {
    const params = { vessel: found.vessel.plan.name, wanted };
    return {
      phase: 'strange-vessel',
      block: 'wrong-vessel',
      choices,
      say: { key: `wrong ${line.plan.id} ${params.vessel}`, code: 'wrong-vessel', params },
    };
  }
  return {
    phase: 'strange-vessel',
    choices,
    say: { key: `strange ${line.plan.id} ${found.kind}`, code: 'strange-vessel', params: { wanted } },
  };
};

const setVessel = (
  stage: Scenery,
  line: LineState,
  vessel: VesselState,
  view: ScaleView,
  scale: ScaleMemory,
  gross: ReturnType<typeof mg>,
) =>
  ({
    kind: 'set-vessel',
    body: {
      line: line.plan.id,
      vessel: vessel.plan.id,
      instrument: view.id,
      gross,
      episode: scale.window?.episode ?? stage.memory.episode,
      within: mg(Math.round(within(scale))),
    },
  }) as const;

/** A person says what it is: held when the mass speaks against it. The vessel that was recognised may carry a part of the line. */
const strangeChoices = (
  stage: Scenery,
  line: LineState,
  view: ScaleView,
  scale: ScaleMemory,
  vessel: VesselState,
  found: Recognised,
): readonly Choice[] => {
  const gross = settledFrame(scale.track)?.gross ?? mg(Math.round(scale.track.level));
  const card = (which: VesselState, hold: boolean): Choice =>
    choice('it-is-vessel', { vessel: which.plan.name, gross }, hold, () => {
      stage.wants.push(setVessel(stage, line, which, view, scale, gross));
    });
  const sure = found.kind === 'alike' || found.kind === 'unknown';
  const other = found.kind === 'other' && line.actual > 0 ? [card(found.vessel, false)] : [];
  return [...other, card(vessel, !sure)];
};

/** What a vessel should read on this scale now, mg; several when it may stand full or as it was accepted. */
const expectedOf = (vessel: VesselState, id: InstrumentId, scale: ScaleMemory): readonly number[] => {
  const masses: number[] = [];
  if (vessel.standing !== null && vessel.standing.instrument === id) masses.push(vessel.standing.gross);
  if (vessel.empty !== null) masses.push(scale.empty + vessel.empty + vessel.contents);
  return masses;
};

const looksLike = (vessel: VesselState, id: InstrumentId, scale: ScaleMemory): boolean =>
  expectedOf(vessel, id, scale).some((mass) => Math.abs(scale.track.level - mass) <= Math.max(RECOGNISED_WITHIN, 3 * scale.track.division));

/** After a weight was crossed out its vessel may come back with all, some or none of it still inside. */
const isBeingWeighedAgain = (line: LineState, vesselId: VesselId, scale: ScaleMemory): boolean => {
  const last = line.contributions.at(-1);
  if (last === undefined || last.struck === null || last.weighed === null || last.vessel !== vesselId) return false;
  const { zero, gross } = last.weighed;
  return scale.track.level >= zero - RECOGNISED_WITHIN && scale.track.level <= gross + RECOGNISED_WITHIN;
};

const recognise = (batch: BatchState, line: LineState, id: InstrumentId, scale: ScaleMemory): Recognised => {
  const own = batch.vessels[line.plan.vessel];
  const others = Object.values(batch.vessels).filter((vessel) => vessel.plan.id !== line.plan.vessel && isAbout(batch, vessel, id));
  const other = others.find((vessel) => looksLike(vessel, id, scale));
  if (line.plan.mode === 'loss') {
    const known = own !== undefined && looksLike(own, id, scale) ? own : other;
    if (known !== undefined) return { kind: 'other', vessel: known };
    return scale.track.level - scale.empty > line.plan.target ? { kind: 'match' } : { kind: 'strange' };
  }
  if (own === undefined) return { kind: 'strange' };
  // It stands where it was accepted and was never lifted.
  if (scale.stand?.vessel === own.plan.id && scale.stand.off === null) return { kind: 'match' };
  if (looksLike(own, id, scale) || isBeingWeighedAgain(line, own.plan.id, scale)) {
    return other === undefined ? { kind: 'match' } : { kind: 'alike', vessel: other };
  }
  if (other !== undefined) return { kind: 'other', vessel: other };
  return own.empty === null && own.standing === null ? { kind: 'unknown' } : { kind: 'strange' };
};

/** A vessel that may come to this pan: not emptied for good, and not standing on another scale. */
const isAbout = (batch: BatchState, vessel: VesselState, id: InstrumentId): boolean =>
  vessel.state !== 'moved' && !Object.entries(batch.pans).some(([pan, state]) => pan !== id && state.vessel === vessel.plan.id);

/** The wanted vessel was set down on the scale that cannot serve the line. */
const onOtherScale = (stage: Scenery, line: LineState, view: ScaleView, vessel: VesselState): boolean =>
  line.plan.mode !== 'loss' &&
  stage.view.scales.some((other) => {
    const scale = stage.memory.scales[other.id];
    if (other.id === view.id || scale === undefined || other.freshness !== 'fresh' || !scale.track.stable) return false;
    return scale.stand === null && isLoaded(scale, vessel.empty) && looksLike(vessel, other.id, scale);
  });
