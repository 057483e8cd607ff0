import type { Path } from './paths';
import type { Terms } from './types';

/** The lowest the oils may have: the window's edge, or where they set with its margin. */
export const oilsLowest = ({ low, setsAt, settingMargin }: Terms): number =>
  setsAt === null ? low : Math.max(low, setsAt + settingMargin);

/** The highest the lye may have: the window's edge, or what a milk in it bears. */
export const lyeHighest = ({ high, milkLimit }: Terms): number => Math.min(high, milkLimit ?? high);

/** Segments of a path of which some part lies between two temperatures: the first and the one past the last. */
const between = (path: Path, low: number, high: number): readonly [first: number, past: number] => {
  let [first, past] = [-1, 0];
  for (let i = 1; i < path.length; i += 1) {
    const [a, b] = [path[i - 1] as number, path[i] as number];
    if (Math.max(a, b) < low || Math.min(a, b) > high) continue;
    if (first === -1) first = i;
    past = i + 1;
  }
  return [first, past];
};

/**
 * When each way of the lye first meets each way of the oils, in ascending order: both in the window and close enough. Seconds; infinite
 * where they do not. Between the moments of a path it goes straight.
 */
export const firstMeetings = (lye: readonly Path[], oils: readonly Path[], after: readonly number[], terms: Terms): readonly number[] => {
  const [top, foot] = [lyeHighest(terms), oilsLowest(terms)];
  const lyeSpans = lye.map((path) => between(path, terms.low, top));
  const oilsSpans = oils.map((path) => between(path, foot, terms.high));
  const found: number[] = [];
  for (const [i, one] of lye.entries()) {
    const [lyeFirst, lyePast] = lyeSpans[i] as readonly [number, number];
    for (const [j, other] of oils.entries()) {
      const [oilsFirst, oilsPast] = oilsSpans[j] as readonly [number, number];
      const none = lyeFirst === -1 || oilsFirst === -1;
      const from = Math.max(lyeFirst, oilsFirst);
      const past = none ? from : Math.min(lyePast, oilsPast);
      found.push(firstAlong(one, other, after, { from, past, top, foot, terms }));
    }
  }
  return found.toSorted((a, b) => a - b);
};

interface Stretch {
  readonly from: number;
  readonly past: number;
  readonly top: number;
  readonly foot: number;
  readonly terms: Terms;
}

const firstAlong = (lye: Path, oils: Path, after: readonly number[], { from, past, top, foot, terms }: Stretch): number => {
  const { apart } = terms;
  let [l0, o0] = [lye[from - 1] as number, oils[from - 1] as number];
  for (let i = from; i < past; i += 1) {
    const [l1, o1] = [lye[i] as number, oils[i] as number];
    // Far apart all along is most of every way, and is seen at a glance.
    if (Math.min(Math.abs(l0 - o0), Math.abs(l1 - o1)) <= apart || (l0 - o0) * (l1 - o1) < 0) {
      const part = partOf([l0, o0], [l1, o1], { top, foot, terms });
      if (part !== null) return (after[i - 1] as number) + part * ((after[i] as number) - (after[i - 1] as number));
    }
    [l0, o0] = [l1, o1];
  }
  return Number.POSITIVE_INFINITY;
};

type Pair = readonly [lye: number, oils: number];

/** The first part of a straight segment at which every term is kept, 0 to 1; `null`: at none. */
const partOf = ([l0, o0]: Pair, [l1, o1]: Pair, { top, foot, terms }: Pick<Stretch, 'top' | 'foot' | 'terms'>): number | null => {
  const { low, high, apart } = terms;
  const [d0, d1] = [l0 - o0, l1 - o1];
  // What must not be negative, at the segment's start and end.
  const spare = [
    [l0 - low, l1 - low],
    [top - l0, top - l1],
    [o0 - foot, o1 - foot],
    [high - o0, high - o1],
    [apart - d0, apart - d1],
    [apart + d0, apart + d1],
  ] as const;
  let [first, last] = [0, 1];
  for (const [start, end] of spare) {
    if (start < 0 && end < 0) return null;
    if (start < 0) first = Math.max(first, start / (start - end));
    if (end < 0) last = Math.min(last, start / (start - end));
  }
  return first <= last ? first : null;
};
