import { mg } from '#lib/units/mass';
import { learnRise, settledFrame } from '#lib/measure/readings/settle';
import type { BatchState, LineState, VesselState } from '#lib/work/batch/index';
import type { ScaleView } from '../conductor-types';
import { nameOnPan } from './bottle';
import { blockedScene } from './blocked';
import { choice } from './choices';
import { goalOf } from './parts';
import { probeLeans } from './probe';
import { isOnlyAbout, looksLike, recognise, type Recognised } from './recognise';
import type { ScaleMemory } from './memory';
import { recognisedWithin, setScale, wantOnce, within, type Choice, type Scene, type Scenery } from './stage';
import { notSurely } from './strayed';
import { isBelowEmpty, isLoaded } from './zero';

/** Nothing is set for the line on its scale yet: wait for the vessel, recognise it, take the zero. */
export const arriveScene = (stage: Scenery, line: LineState, view: ScaleView, scale: ScaleMemory): Scene => {
  const vessel = stage.batch.vessels[line.plan.vessel];
  if (vessel === undefined) return { phase: 'blocked', block: 'wrong-vessel' };
  const names = { vessel: nameOnPan(stage.batch, line), scale: line.plan.scale };
  if (isBelowEmpty(scale)) return blockedScene(stage, line, 'underload');
  if (!isLoaded(scale, line.plan.mode === 'loss' ? line.plan.target : vessel.empty)) {
    const elsewhere = onOtherScale(stage, line, view, vessel);
    if (elsewhere) {
      return {
        phase: 'waiting-vessel',
        block: 'other-scale',
        say: { key: `other-scale ${line.plan.id}`, code: 'other-scale', params: names },
      };
    }
    return { phase: 'waiting-vessel', say: nextWords(stage.batch, line) };
  }
  if (!scale.track.stable || scale.window === null) return { phase: 'settling-vessel' };
  if (line.plan.mode === 'gain' && probeLeans(stage, vessel.plan)) return blockedScene(stage, line, 'probe-leaning');
  return recognisedScene(stage, line, view, scale, vessel);
};

/** The next line, read out with everything a person with full hands needs. */
export const nextWords = (batch: BatchState, line: LineState, byHand = false): Scene['say'] & object => ({
  key: `next ${line.plan.id} ${line.contributions.length}`,
  code: 'next-line',
  params: {
    material: line.plan.material.name,
    target: goalOf(line) - line.actual,
    vessel: nameOnPan(batch, line),
    scale: byHand ? '' : line.plan.scale,
    lot: line.plan.lot?.mark ?? '',
  },
});

const recognisedScene = (stage: Scenery, line: LineState, view: ScaleView, scale: ScaleMemory, vessel: VesselState): Scene => {
  const found = recognise(stage.batch, line, view.id, scale);
  if (found.kind === 'match') {
    const gross = settledFrame(scale.track)?.gross ?? mg(Math.round(scale.track.level));
    setScale(stage, view.id, { track: learnRise(scale.track, scale.empty) });
    if (vessel.recount !== null && isOnlyAbout(line, vessel, scale))
      setScale(stage, view.id, { strayed: notSurely(line.plan.id, vessel.recount.zero) });
    const episode = scale.window?.episode ?? 0;
    wantOnce(stage, `set ${episode}`, setVessel(stage, line, vessel, view, scale, gross));
    return { phase: 'settling-vessel' };
  }
  const wanted = nameOnPan(stage.batch, line);
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

/** What it has more in it than the record knows would be part of its zero, and in no weight. */
const unknownIn = (
  { plan }: LineState,
  { standing, empty, contents, recount }: VesselState,
  scale: ScaleMemory,
): { readonly more?: number } => {
  if (plan.mode !== 'gain' || standing !== null || empty === null || recount?.line === plan.id) return {};
  const more = Math.round(scale.track.level - scale.empty - empty - contents);
  return more > recognisedWithin(scale) ? { more } : {};
};

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
  const card = (which: VesselState, hold: boolean, name = which.plan.name): Choice =>
    choice('it-is-vessel', { vessel: name, gross, ...unknownIn(line, which, scale) }, hold, () => {
      // It counts from its old zero, and nothing but a person's word says that it is the one: what comes of it is a person's to take.
      if (which.recount?.line === line.plan.id) setScale(stage, view.id, { strayed: notSurely(line.plan.id, which.recount.zero) });
      stage.wants.push(setVessel(stage, line, which, view, scale, gross));
    });
  const sure = found.kind === 'alike' || found.kind === 'unknown';
  const other = found.kind === 'other' && line.actual > 0 ? [card(found.vessel, false)] : [];
  return [...other, card(vessel, !sure, nameOnPan(stage.batch, line))];
};

/** The wanted vessel was set down on the scale that cannot serve the line. */
const onOtherScale = (stage: Scenery, line: LineState, view: ScaleView, vessel: VesselState): boolean =>
  line.plan.mode !== 'loss' &&
  stage.view.scales.some((other) => {
    const scale = stage.memory.scales[other.id];
    if (other.id === view.id || scale === undefined || other.freshness !== 'fresh' || !scale.track.stable) return false;
    return scale.stand === null && isLoaded(scale, vessel.empty) && looksLike(vessel, other.id, scale);
  });
