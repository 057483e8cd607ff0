import { settledFrame } from '#lib/measure/readings/settle';
import type { Milligrams } from '#lib/units/mass';
import { mg } from '#lib/units/mass';
import { base64 } from '#lib/units/base64';
import type { Weighed } from '#lib/work/batch/index';
import type { ConductorMemory } from '../conductor/index';
import { within } from '../conductor/stage';
import type { ScaleView } from '../conductor-types';
import type { Pan } from './types';

/** A scale as a round of bars sees it: the same tracks, settled windows and episodes that a batch is weighed by. */
export const panOf = (memory: ConductorMemory, view: ScaleView): Pan | null => {
  const scale = memory.scales[view.id];
  if (scale === undefined) return null;
  const settled = scale.track.stable ? settledFrame(scale.track) : null;
  const { window } = scale;
  return {
    instrument: view.id,
    why: whyOf(view),
    division: scale.track.division,
    within: within(scale),
    empty: scale.empty,
    emptySeen: scale.emptySeen,
    settled: settled === null || window === null ? null : { gross: settled.gross, episode: window.episode },
  };
};

const whyOf = ({ freshness, suspect = null, reading }: ScaleView): Pan['why'] => {
  if (freshness === 'late') return 'late';
  if (freshness !== 'fresh' || reading === null) return 'lost';
  if (reading.range === 'under') return 'underload';
  return suspect !== null || reading.mass === null ? 'suspect' : null;
};

/** The settled window as evidence; `null` when it is not settled after all. */
export const barWeighed = (memory: ConductorMemory, { instrument }: Pan, zero: number): Omit<Weighed, 'check'> | null => {
  const scale = memory.scales[instrument];
  const settled = scale === undefined || !scale.track.stable ? null : settledFrame(scale.track);
  if (scale === undefined || settled === null || scale.window === null) return null;
  const { frame, gross } = settled;
  const from: Milligrams = mg(Math.round(zero));
  return {
    gross,
    zero: from,
    net: mg(gross - from),
    text: frame.text,
    unit: frame.unit,
    step: frame.step,
    raw: base64(frame.raw),
    instrument,
    episode: scale.window.episode,
    strip: null,
  };
};
