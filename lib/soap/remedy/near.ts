import type { LeastChange } from './least-change';
import { finalOf, heldBy, keeps, keptOf, type Programme } from './programme';
import { changeAt, type WholeChange } from './whole-change';

/** Something that is counted in divisions: a line, or what leaves a mixture. */
interface Counted {
  readonly quantity: number | null;
  readonly mixture: number | null;
  /** Masses it may have: of the line's own, or taken from the mixture. */
  readonly masses: readonly number[];
}

/** At most so many combinations are looked at: some milliseconds. */
const MOST_COMBINATIONS = 2_500;
const WIDEST = 7;
/** Beyond so many a few divisions about each seldom hold one that keeps every limit. */
const MOST_LINES = 4;
const CHANGED = 1e-7;

/** Whole divisions about a mass, within bounds; the first as many below it as above. */
const about = (mass: number, from: number, division: number, low: number, high: number, width: number): readonly number[] => {
  const middle = Math.round((mass - from) / division);
  const counts = Array.from({ length: width }, (_, i) => middle + (i % 2 === 0 ? i / 2 : -(i + 1) / 2));
  return counts.map((count) => from + division * count).filter((own) => own >= low - 1e-9 && own <= high + 1e-9);
};

const widthFor = (lines: number): number => {
  if (lines > MOST_LINES) return 0;
  for (let width = WIDEST; width > 2; width -= 1) if ((width + 1) ** lines <= MOST_COMBINATIONS) return width;
  return 0;
};

/** Lines and mixtures that the least change touches, each with what it may weigh instead; `null` when one cannot be weighed at all. */
const countedOf = ({ quantities, mixtures }: Programme, { own, kept }: LeastChange): readonly Counted[] | null => {
  const lines = quantities.flatMap((one, at) => (Math.abs((own[at] ?? 0) - one.weighing.stays) > CHANGED ? [at] : []));
  const scooped = mixtures.flatMap((_, at) => (1 - (kept[at] ?? 1) > CHANGED / 1000 ? [at] : []));
  const width = widthFor(lines.length + scooped.length);
  if (width === 0) return null;
  const ofLines = lines.map((at): Counted => {
    const { weighing, least, most } = quantities[at] as Programme['quantities'][number];
    const { division, from, stays, smallest } = weighing;
    if (division === null) return { quantity: at, mixture: null, masses: [stays] };
    const poured = least - from >= 0 && from === stays ? from + smallest : least;
    return { quantity: at, mixture: null, masses: [stays, ...about(own[at] ?? 0, from, division, Math.max(least, poured), most, width)] };
  });
  const ofMixtures = scooped.map((at): Counted => {
    const mixture = mixtures[at] as Programme['mixtures'][number];
    const held = heldBy(mixture);
    const { division, mostTaken } = mixture;
    const taken = (1 - (kept[at] ?? 1)) * held;
    return { quantity: null, mixture: at, masses: division === null ? [0] : [0, ...about(taken, 0, division, 0, mostTaken * held, width)] };
  });
  return [...ofLines, ...ofMixtures];
};

/**
 * Whole divisions next to the least change: the same lines, each a few divisions about it or left alone, all combinations looked at. What
 * keeps every limit is measured against the continuous optimum, which nothing in whole divisions can beat: `gap` says how far it is.
 * None where none near it keeps every limit, or too many lines change for all combinations.
 */
export const nearChanges = (programme: Programme, least: LeastChange): readonly WholeChange[] => {
  const counted = countedOf(programme, least);
  if (counted === null) return [];
  const found: WholeChange[] = [];
  const own = programme.quantities.map(({ weighing }) => weighing.stays);
  const taken = programme.mixtures.map(() => 0);
  const visit = (depth: number): void => {
    const one = counted[depth];
    if (one === undefined) {
      const final = finalOf(programme, own, keptOf(programme, taken));
      if (keeps(programme, final)) found.push(changeAt(programme, least, own, taken, final));
      return;
    }
    for (const mass of one.masses) {
      if (one.quantity !== null) own[one.quantity] = mass;
      if (one.mixture !== null) taken[one.mixture] = mass;
      visit(depth + 1);
    }
  };
  visit(0);
  return found;
};
