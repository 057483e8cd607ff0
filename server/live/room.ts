import type { ScreenId } from '#lib/units/id';
import type { Place } from './who';

/** A screen that is open. */
export interface Opened {
  readonly id: ScreenId;
  place(): Place;
  /** When anything it said was last understood, or when it came, ms. */
  heardAt(): number;
}

/** Nearest first. */
const PLACES: readonly Place[] = ['here', 'paired', 'elsewhere'];
/** So many screens of a place and of those further away: whoever is nearer finds room, however many come from afar. Our choice. */
const MOST: Readonly<Record<Place, number>> = { here: 128, paired: 112, elsewhere: 64 };
/** A page says each second that it is there, a hidden one less often: one that is silent for so long may have to go for another. */
export const SILENT_MS = 10_000;

/** Whether one more screen has room: yes, no, or in the place of one that has long said nothing, which must be hung up on. */
export const roomFor = <Screen extends Opened>(
  { id, place }: { readonly id: ScreenId; readonly place: Place },
  open: Iterable<Screen>,
  now: number,
): 'yes' | 'no' | Screen => {
  // The same page come back takes its own place.
  const rivals = [...open].filter((one) => one.id !== id && PLACES.indexOf(one.place()) >= PLACES.indexOf(place));
  if (rivals.length < MOST[place]) return 'yes';
  const [longest] = rivals.filter((one) => now - one.heardAt() >= SILENT_MS).toSorted((a, b) => a.heardAt() - b.heardAt());
  return longest ?? 'no';
};
