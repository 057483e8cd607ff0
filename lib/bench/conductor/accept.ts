import type { InstrumentId } from '#lib/units/id';
import { mg, type Milligrams } from '#lib/units/mass';
import { settledFrame } from '#lib/measure/readings/settle';
import type { AcceptedHow, BatchState, LineState, Want, Weighed } from '#lib/work/batch/index';
import { verdictOf } from '#lib/work/batch/verdict';
import { base64 } from '#lib/units/base64';
import { easedFor } from './eased';
import type { PourMemory, ScaleMemory } from './memory';
import { wantOnce, type Scenery } from './stage';

/** +1: what is poured adds to the pan. −1: a bottle on the pan is weighed by its loss. */
export const signOf = (line: LineState): 1 | -1 => (line.plan.mode === 'loss' ? -1 : 1);

/**
 * The settled window as evidence. Gross, text, unit and raw bytes are one reading: the median of the window. The strip is added by who
 * keeps it.
 */
export const weighedFrom = (batch: BatchState, id: InstrumentId, scale: ScaleMemory, zero: Milligrams, sign: 1 | -1): Weighed | null => {
  const settled = settledFrame(scale.track);
  if (settled === null || scale.window === null) return null;
  const { frame, gross } = settled;
  return {
    gross,
    zero,
    net: mg(sign * (gross - zero)),
    text: frame.text,
    unit: frame.unit,
    step: frame.step,
    raw: base64(frame.raw),
    instrument: id,
    check: batch.checks[id]?.entry ?? null,
    episode: scale.window.episode,
    strip: null,
  };
};

export interface Accepting {
  readonly line: LineState;
  readonly pour: PourMemory;
  readonly scale: ScaleMemory;
  readonly how: AcceptedHow;
  readonly part?: boolean;
  readonly shortIsFine?: boolean;
}

/** The want that takes the settled weight into the record, and what follows it; nothing when it is not settled after all. */
export const wantAccept = (
  stage: Scenery,
  { line, pour, scale, how, part = false, shortIsFine = false }: Accepting,
  ...then: Want[]
): void => {
  const weighed = weighedFrom(stage.batch, pour.instrument, scale, mg(pour.zero), signOf(line));
  if (weighed === null) return;
  // The mean was within; the one reading that will stand for it must be, too.
  if (how === 'by-itself' && verdictOf(line.plan, mg(line.actual + weighed.net)) !== 'within') return;
  const eased = easedFor(pour.eased, stage.view.hand);
  const body = { line: line.plan.id, vessel: pour.vessel, weighed, how, part, shortIsFine, ...(eased === null ? {} : { eased }) };
  if (how === 'by-itself') wantOnce(stage, `accept ${weighed.episode}`, { kind: 'accept', body });
  else stage.wants.push({ kind: 'accept', body }, ...then);
};
