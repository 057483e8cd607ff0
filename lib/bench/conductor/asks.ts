import type { InstrumentId, LineId } from '#lib/units/id';
import type { BatchState, VesselState } from '#lib/work/batch/index';
import type { ConductorEvent } from '../conductor-types';
import { wantAccept, weighedFrom } from './accept';
import { goAway } from './away';
import { acceptBlock, hindrance } from './hinder';
import type { ScaleMemory } from './memory';
import { scaleOf, type Scenery } from './stage';
import { isLoaded } from './zero';

/** Buttons that only a screen has. What is weighed comes from here, never from the screen. */
export const ask = (stage: Scenery, what: Extract<ConductorEvent, { kind: 'ask' }>['ask']): void => {
  if (what === 'away') goAway(stage);
  if (what === 'return') stage.memory.returning = true;
  if (what === 'part-pour') keepPart(stage);
  if (what === 'weigh-back') weighBack(stage);
};

/** Keeps what is in and opens the rest of the line for another weighing. A button is no hold: for hydroxide it brings up the card. */
const keepPart = (stage: Scenery): void => {
  const { pour } = stage.memory;
  const line = stage.batch.open === null ? undefined : stage.batch.lines[stage.batch.open];
  const view = line === undefined ? null : scaleOf(stage.view, line);
  const scale = view === null ? undefined : stage.memory.scales[view.id];
  if (pour === null || line === undefined || view === null || scale === undefined || pour.lifted !== null) return;
  if (acceptBlock(stage, stage.batch, line, view, scale) !== null) return;
  if (line.plan.material.class === 'hydroxide') stage.memory.pour = { ...pour, part: scale.track.level };
  else wantAccept(stage, { line, pour, scale, how: 'go-on', part: true });
};

/** What stayed in an emptied jug: the jug on the pan is the one that leaves the least behind by its empty mass. */
const weighBack = (stage: Scenery): void => {
  for (const view of stage.view.scales) {
    const scale = stage.memory.scales[view.id];
    if (scale === undefined || hindrance(stage, view, scale) !== null || !stage.view.leased || !isLoaded(scale, null)) continue;
    const jug = jugOn(stage.batch, view.id, scale);
    const line = jug === null ? undefined : lineIn(jug);
    if (jug === null || jug.empty === null || line === undefined || isBeingFilled(stage, jug, view.id)) continue;
    const weighed = weighedFrom(stage.batch, view.id, scale, jug.empty, 1);
    if (weighed === null || weighed.net < 0) continue;
    stage.wants.push({ kind: 'weigh-back', body: { line, vessel: jug.plan.id, weighed } });
    return;
  }
};

/** What is poured into it now is in no line yet, and would count as left behind. */
const isBeingFilled = ({ memory: { pour }, batch }: Scenery, jug: VesselState, on: InstrumentId): boolean =>
  pour?.begun === true && pour.instrument === on && pour.vessel === jug.plan.id && batch.lines[pour.line]?.plan.mode === 'gain';

const jugOn = (batch: BatchState, id: InstrumentId, scale: ScaleMemory): VesselState | null => {
  let found: VesselState | null = null;
  const pan = batch.pans[id];
  // A bottle stands there, and no jug of the plan.
  if (pan !== undefined && scale.bottle !== null && !scale.bottle.off) return null;
  for (const vessel of Object.values(batch.vessels)) {
    const { empty } = vessel;
    if (empty === null || empty > scale.track.level || lineIn(vessel) === undefined) continue;
    if (pan !== undefined && pan.vessel !== vessel.plan.id) continue;
    if (found === null || found.empty === null || empty > found.empty) found = vessel;
  }
  return found;
};

/** A line whose material is, or was, in it. */
const lineIn = (vessel: VesselState): LineId | undefined =>
  (Object.keys(vessel.delivered) as LineId[])[0] ?? (Object.keys(vessel.holds) as LineId[])[0];
