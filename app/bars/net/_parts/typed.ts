import { readNumber } from '#lib/units/parse';
import { heldOf } from '../../../_ui/held';

/** What is typed at a check, by field; held on this screen for each lot. */
export interface NetTyped {
  readonly nominal: string;
  readonly size: string;
  readonly known: string;
  readonly shown: string;
  readonly step: string;
  readonly confidence: string;
  readonly until: string;
}

const EMPTY: NetTyped = { nominal: '', size: '', known: '', shown: '', step: '', confidence: '0.95', until: 'now' };

export const heldChecks = heldOf<NetTyped>('potwatch.net.', (value) => {
  const all = value as Readonly<Record<string, unknown>>;
  return Object.keys(EMPTY).every((key) => typeof all[key] === 'string') ? (value as NetTyped) : null;
});
export const startOf = (id: string): NetTyped => heldChecks.read(id) ?? EMPTY;

/** A typed number; `null` for nothing, NaN for what is none. "125,5" and "125.5" are one; of two readings the fraction, for no bar weighs a ton. */
export const figureOf = (text: string): number | null => {
  if (text.trim() === '') return null;
  const read = readNumber(text);
  if (read.kind === 'number') return Number(read.decimal);
  return read.kind === 'ambiguous' ? Number(read.readings[0]) : Number.NaN;
};
