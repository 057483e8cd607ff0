import type { Forecast } from '#lib/soap/cooling/types';
import type { Meeting } from '#lib/soap/meeting/types';
import type { Share } from '../interval';

/** Minutes ahead at which intervals are held against what came. */
export const AHEAD_MIN: readonly number[] = [5, 10, 20];

/** Intervals of one kind, one horizon. */
export interface Held {
  inside: number;
  below: number;
  above: number;
  readonly widths: number[];
}

export interface Tally {
  vessels: number;
  answered: number;
  pairs: number;
  pairsAnswered: number;
  asked: number;
  /** Marks while nothing was done, and the seconds in which nothing was. */
  falseMarks: number;
  quietS: number;
  readonly reasons: Map<string, number>;
  /** By kind of vessel, or of what was done to it, then minutes ahead. */
  readonly held: Map<string, Map<number, Held>>;
  /** By what was done: seconds until it was noticed, infinite where it was not, and the K that it changes in twenty minutes. */
  readonly noticed: Map<string, Noticed[]>;
  readonly tooEarly: string[];
  readonly meetings: {
    readonly met: Count;
    readonly in: Count;
    readonly notBefore: Count;
    readonly never: Count;
    none: number;
    /** Minutes. */
    readonly errors: number[];
    readonly widths: number[];
  };
}

export interface Noticed {
  readonly after: number;
  readonly change: number;
}

interface Count {
  seen: number;
  of: number;
}

const noCount = (): Count => ({ seen: 0, of: 0 });

export const newTally = (): Tally => ({
  vessels: 0,
  answered: 0,
  pairs: 0,
  pairsAnswered: 0,
  asked: 0,
  falseMarks: 0,
  quietS: 0,
  reasons: new Map(),
  held: new Map(),
  noticed: new Map(),
  tooEarly: [],
  meetings: { met: noCount(), in: noCount(), notBefore: noCount(), never: noCount(), none: 0, errors: [], widths: [] },
});

/** `path`: °C each minute from now on. */
export const judgeRanges = ({ ahead }: Forecast, path: readonly number[], groups: readonly string[], tally: Tally): void => {
  for (const minutes of AHEAD_MIN) {
    const range = ahead.find(({ after }) => after === 60 * minutes);
    const truth = path[minutes];
    if (range === undefined || truth === undefined) throw new Error('a forecast has no such horizon');
    for (const group of groups) {
      const held = heldOf(tally, group, minutes);
      if (truth < range.low) held.below += 1;
      else if (truth > range.high) held.above += 1;
      else held.inside += 1;
      held.widths.push(range.high - range.low);
    }
  }
};

const heldOf = ({ held }: Tally, group: string, minutes: number): Held => {
  const byTime = held.get(group) ?? new Map<number, Held>();
  held.set(group, byTime);
  const found = byTime.get(minutes) ?? { inside: 0, below: 0, above: 0, widths: [] };
  byTime.set(minutes, found);
  return found;
};

export const shareOf = (held: readonly Held[]): Share => ({
  seen: held.reduce((sum, { inside }) => sum + inside, 0),
  of: held.reduce((sum, { inside, below, above }) => sum + inside + below + above, 0),
});

/** What a step of the truth is long, s. */
const STEP_S = 10;

const mark = (count: Count, right: boolean): void => {
  count.of += 1;
  if (right) count.seen += 1;
};

export const judgeMeeting = (meeting: Meeting, truth: number, { meetings }: Tally): void => {
  if (meeting.kind === 'none') {
    meetings.none += 1;
    return;
  }
  const { when } = meeting;
  // A probe's error may put the moment off by what the vessels cool in it.
  if (when.kind === 'met') mark(meetings.met, truth <= 120);
  if (when.kind === 'never') mark(meetings.never, truth === Number.POSITIVE_INFINITY);
  if (when.kind === 'not-before') mark(meetings.notBefore, truth >= when.after - STEP_S);
  if (when.kind !== 'in') return;
  mark(meetings.in, truth >= when.low - STEP_S && truth <= when.high + STEP_S);
  meetings.widths.push((when.high - when.low) / 60);
  meetings.errors.push(Math.abs(truth - when.middle) / 60);
};
