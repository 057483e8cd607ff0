import { mg } from '#lib/units/mass';
import { milliCelsius } from '#lib/units/temperature';
import type { EntryId } from '#lib/units/id';
import type { BatchState, Contribution } from '../state';
import { changeContributions, type Evolve } from './parts';

/** Sums stay as they were weighed and closed; what is right stands beside them. */
export const amended: Evolve<'amended'> = (state, { body: { what, entry, of, is, lot } }): BatchState => {
  if (what === 'weight') return changeContributions(state, (one) => one.entry === entry, { amended: mg(Number(is)) });
  if (what === 'lot' && lot !== undefined) {
    const before = contributionOf(state, entry);
    const onceLots = [...(before?.onceLots ?? []), ...(before?.lot === undefined ? [] : [before.lot])];
    return changeContributions(state, (one) => one.entry === entry, { lot, ...(onceLots.length > 0 ? { onceLots } : {}) });
  }
  const { joined } = state;
  if (what === 'temperature' && joined !== null) return { ...state, joined: { ...joined, [of]: milliCelsius(Number(is)) } };
  return state;
};

const contributionOf = ({ lines }: BatchState, entry: EntryId | null): Contribution | undefined =>
  Object.values(lines)
    .flatMap(({ contributions }) => contributions)
    .find((one) => one.entry === entry);

export const cleaned: Evolve<'cleaned'> = (state) => state;

export const photoKept: Evolve<'photo-kept'> = (state) => state;
