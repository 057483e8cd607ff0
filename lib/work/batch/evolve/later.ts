import { mg } from '#lib/units/mass';
import { milliCelsius } from '#lib/units/temperature';
import type { BatchState } from '../state';
import { changeContributions, type Evolve } from './parts';

/** Sums stay as they were weighed and closed; what is right stands beside them. */
export const amended: Evolve<'amended'> = (state, { body: { what, entry, of, is, lot } }): BatchState => {
  if (what === 'weight') return changeContributions(state, (one) => one.entry === entry, { amended: mg(Number(is)) });
  if (what === 'lot' && lot !== undefined) return changeContributions(state, (one) => one.entry === entry, { lot });
  const { joined } = state;
  if (what === 'temperature' && joined !== null) return { ...state, joined: { ...joined, [of]: milliCelsius(Number(is)) } };
  return state;
};

export const cleaned: Evolve<'cleaned'> = (state) => state;

export const photoKept: Evolve<'photo-kept'> = (state) => state;
