import type { InstrumentId } from '#lib/units/id';
import type { Weighed } from '#lib/work/batch/index';
import type { Recorder } from './recorder';

/** A weight as the big or the small scale of this workshop would have told it. */
export const weighedAs = (
  recorder: Recorder,
  instrument: InstrumentId,
  { gross, zero, net, step }: Pick<Weighed, 'gross' | 'zero' | 'net' | 'step'>,
): Weighed => {
  const text = (gross / 1000).toFixed(step < 100 ? 2 : 1);
  const raw = btoa(`ST,GS,${text.padStart(9)} g\r\n`);
  const check = recorder.checks[instrument] ?? null;
  return { gross, zero, net, text, unit: 'g', step, raw, instrument, check, episode: recorder.settle(instrument, gross), strip: null };
};
