import type { ForecastLane, VesselLane } from '#lib/protocol/forecast';
import { milliCelsius } from '#lib/units/temperature';
import type { ForetoldStep, MeetingForetold, TemperatureCourse } from '#lib/work/batch/course';

type Told = Pick<TemperatureCourse, 'marks' | 'foretold'>;

/** The changes that were noticed, and the first meeting that was foretold after the newest of them. */
export interface ForetoldWatch {
  told(lane: ForecastLane): void;
  forget(): void;
  /** With moments counted from a second of the server's clock; what lies before it is left out. */
  since(start: number): Told;
}

const MOST_MARKS = 16;
/** Steps of what is kept, s, and how far it reaches: past the meeting by a fifth. */
const EVERY_S = 120;
const BEYOND = 1.2;
const LEAST_S = 600;

type Marks = NonNullable<TemperatureCourse['marks']>;

export const followForetold = (): ForetoldWatch => {
  let marks: Marks = [];
  let first: MeetingForetold | null = null;
  return {
    told(lane) {
      const seen = (['lye', 'oils'] as const).flatMap((of) =>
        lane[of].marks.map(({ turn, since, noticed }) => ({ of, turn, since: Math.round(since), noticed: Math.round(noticed) })),
      );
      const isKnown = (one: Marks[number]): boolean => marks.some(({ of, noticed }) => of === one.of && noticed === one.noticed);
      const fresh = seen.filter((one) => !isKnown(one));
      marks = [...marks, ...fresh].toSorted((a, b) => a.noticed - b.noticed).slice(-MOST_MARKS);
      if (lane.meeting?.kind !== 'meeting' || lane.meeting.when.kind !== 'in') return;
      const at = Math.round(lane.at / 1000);
      if (first !== null && first.at >= (marks.at(-1)?.noticed ?? -Infinity)) return;
      const { low, middle, high } = lane.meeting.when;
      const until = Math.max(LEAST_S, BEYOND * high);
      first = { at, meets: { low, middle, high }, lye: stepsOf(lane.lye, until), oils: stepsOf(lane.oils, until) };
    },
    forget() {
      [marks, first] = [[], null];
    },
    since(start) {
      const shown = marks
        .filter(({ since }) => since >= start)
        .map((one) => ({ ...one, since: one.since - start, noticed: one.noticed - start }));
      return {
        ...(shown.length === 0 ? {} : { marks: shown }),
        ...(first === null || first.at < start ? {} : { foretold: { ...first, at: first.at - start } }),
      };
    },
  };
};

/** Up to where it is sure enough to be told. */
const stepsOf = ({ outlook }: VesselLane, until: number): readonly ForetoldStep[] =>
  outlook.kind === 'none'
    ? []
    : outlook.ahead
        .filter(([after]) => after % EVERY_S === 0 && after <= Math.min(until, outlook.until))
        .map(([after, low, middle, high]) => ({ after, low: milliCelsius(low), middle: milliCelsius(middle), high: milliCelsius(high) }));
