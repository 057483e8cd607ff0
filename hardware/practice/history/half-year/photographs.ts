import { random } from '../../world/random';
import { workedAt } from './hours';
import type { Life, Lot } from './lot';
import { pictureKey } from './pictures';
import { CURE } from './workshop';

const DAY_MS = 86_400_000;

/** Something that happens to a lot at a moment. */
export type Event = readonly [wall: number, happen: () => void];

/** Lots cut so long before the half-year's end that nobody looks at their photographs any more have none. */
const PICTURED_DAYS = 45;
/** So often somebody remembers it on its day. */
const REMEMBERED = 0.9;
/** After the cut, when the table is clean. */
const PHOTO_AFTER = 0.05;

/** The photographs of a newer lot, on the days of the schedule. */
export const photographed = (lot: Lot, cut: number, { now, offsetMin, pictures }: Life): Event[] => {
  if (now - cut > PICTURED_DAYS * DAY_MS) return [];
  const remembers = random(lot.state.poured % 1_000_000, 'photographs');
  return CURE.photos.flatMap((day): readonly Event[] => {
    const sha256 = pictures.get(pictureKey({ formula: lot.state.of.formula.id, day }));
    const wall = workedAt(cut + (day + PHOTO_AFTER) * DAY_MS, offsetMin);
    if (remembers.next() >= REMEMBERED || sha256 === undefined) return [];
    const note = lot.state.traits.vanillin && day === 4 ? 'hardly darker than two days ago' : '';
    return [[wall, () => lot.do(wall, 'photo', { sha256, note })]];
  });
};
