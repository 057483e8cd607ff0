import type { MassReading } from '#lib/measure/reading';
import type { InstrumentId } from '#lib/units/id';
import type { MassUnit } from '#lib/units/mass';
import { massOfText } from '#lib/units/mass-text';
import { roundStep } from './nature';
import type { Nature } from './nature';

/** What goes wrong with one reading. */
export type Oddity = 'over' | 'beyond-capacity';

/** As much of a scale as its frames tell of. Masses in mg. */
export interface Speaking {
  readonly id: InstrumentId;
  readonly division: number;
  readonly capacity: number;
  readonly nature: Nature;
  unit: MassUnit;
  seq: number;
}

const PER_UNIT = { mg: 1, g: 1_000, kg: 1_000_000, oz: 28_349.523125, lb: 453_592.37 } as const;

/** In what steps a figure of this load is shown, mg, and with how many decimals. */
export const stepOf = ({ division, unit, nature }: Speaking, load: number): { readonly step: number; readonly decimals: number } => {
  const { counts, coarser, ownSteps } = nature;
  const times = coarser !== null && load > coarser.above ? coarser.times : counts;
  const decimals = Math.max(0, Math.ceil(Math.log10(PER_UNIT[unit] / division)) - (times === 10 ? 1 : 0));
  return ownSteps && unit !== 'g' ? roundStep(times * division, PER_UNIT[unit]) : { step: times * division, decimals };
};

export const frameOf = (
  pan: Speaking,
  shown: number,
  { step, decimals }: ReturnType<typeof stepOf>,
  odd: Oddity | null,
): Omit<MassReading, 'at' | 'motion'> => {
  const beyond = odd === 'beyond-capacity' ? pan.capacity + 20 * step : shown;
  const text = (beyond / PER_UNIT[pan.unit]).toFixed(decimals);
  const head = { kind: 'mass', instrument: pan.id, seq: pan.seq, unit: pan.unit, weighing: 'gross' } as const;
  const stated = massOfText(text, pan.unit);
  if (stated === null) throw new Error(`the model's scale said ${text}`);
  const over = odd === 'over' || (odd === null && shown > pan.capacity + 9 * step);
  const raw = new TextEncoder().encode(over ? 'OL' : `${text}${pan.unit}`);
  if (over) return { ...head, raw, text: '', mass: null, step: stated.step, range: 'over' };
  return { ...head, raw, text, mass: stated.mass, step: stated.step, range: 'in' };
};
