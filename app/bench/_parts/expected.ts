import type { Display } from '#lib/units/display';
import { differenceText, temperatureText } from '#lib/units/format';
import type { ForecastLane, MakingLane, MeetingLane, VesselLane } from '#lib/protocol/forecast';
import type { NoForecast } from '#lib/soap/cooling/types';
import type { When } from '#lib/soap/meeting/types';
import type { Frame } from '../../_ui/frame';
import { temperatureMessages as words } from '../messages-temperatures';

/** One line of what is expected: what, and what follows. */
export interface ExpectedRow {
  readonly key: string;
  readonly what: string;
  readonly so: string;
  /** Something to act on before the meeting. */
  readonly urgent: boolean;
}

export interface ExpectedShow {
  readonly display: Display;
  /** A moment of the server's clock, s, as a time of day. */
  readonly clock: (seconds: number) => string;
}

/** Whole minutes, a span never narrowed by it: 61 to 290 s is "in 1–5 min". */
export const spanText = (low: number, high: number): string => words.span(Math.floor(low / 60), Math.ceil(high / 60));

interface WhenWords {
  readonly met: string;
  readonly in: (span: string) => string;
  readonly 'not-before': (minutes: number) => string;
  readonly never: string;
}
const whenText = (when: When, { met, never, ...said }: WhenWords): string => {
  // An act may bring them together at once: no span of no minutes is told.
  if (when.kind === 'in') return when.high <= 0 ? met : said.in(spanText(when.low, when.high));
  if (when.kind === 'not-before') return said['not-before'](Math.floor(when.after / 60));
  return when.kind === 'met' ? met : never;
};

/** The meeting in the fewest words; `null`: nothing is to meet. */
export const headline = (meeting: MeetingLane | null): string => {
  if (meeting === null) return words.meet.unknown;
  if (meeting.kind === 'none') return noMeeting([meeting.lye, meeting.oils]);
  const { when, acts } = meeting;
  return when.kind === 'never' && acts.length > 0 ? words.meet.unless : whenText(when, words.meet);
};

const noMeeting = (why: readonly (NoForecast | null)[]): string => {
  if (why.includes('suspect') || why.includes('out')) return words.meet.suspect;
  return why.includes('rising') ? words.meet.rising : words.meet.none;
};

/** Beside a weighing; `null`: nothing worth a word. */
export const inPassing = (meeting: MeetingLane | null): string | null =>
  meeting === null || meeting.kind === 'none' ? null : whenText(meeting.when, words.passing);

type Vessel = 'lye' | 'oils';

/** Letters to a line of each of the two texts, rows of one line there is room for, and what a line more takes of such a row. */
const ROOM: Readonly<Record<Frame, { readonly what: number; readonly so: number; readonly rows: number; readonly line: number }>> = {
  wide: { what: 31, so: 38, rows: 4.6, line: 0.55 },
  small: { what: 25, so: 29, rows: 2.6, line: 0.57 },
  phone: { what: 38, so: 38, rows: 2.3, line: 0.42 },
};

/** As many as there is room for, the first in any case. Nothing is measured: a row that does not fit is not drawn. */
export const fitting = (rows: readonly ExpectedRow[], frame: Frame): readonly ExpectedRow[] => {
  const room = ROOM[frame];
  let taken = 0;
  const past = rows.findIndex(({ what, so }, at) => {
    const [first, second] = [Math.ceil(what.length / room.what), Math.max(1, Math.ceil(so.length / room.so))];
    taken += 1 + room.line * (frame === 'phone' ? first + second - 2 : Math.max(first, second) - 1);
    return at > 0 && taken > room.rows;
  });
  return past < 0 ? rows : rows.slice(0, past);
};

/** All there is to say, what presses most first. */
export const expectedRows = (lane: ForecastLane, show: ExpectedShow): readonly ExpectedRow[] => [
  ...(lane.swapped ? [{ key: 'swapped', ...words.swapped, urgent: true }] : []),
  ...settingRows(lane.meeting, show),
  ...actRows(lane.meeting, show),
  ...(['lye', 'oils'] as const).flatMap((vessel) => noneRows(vessel, lane[vessel])),
  ...makingRows(lane.making, show),
  ...newestMarks(lane).map(({ vessel, turn, since, noticed }) => ({
    key: `drop-${vessel}-${since}`,
    what: words.drop.what(vessel, words.drop.turns[turn]),
    so: words.drop.when(show.clock(noticed), show.clock(since)),
    urgent: false,
  })),
];

const degrees = (milliCelsius: number, { display }: Pick<ExpectedShow, 'display'>): string => temperatureText(milliCelsius, display);

const settingRows = (meeting: MeetingLane | null, show: ExpectedShow): readonly ExpectedRow[] => {
  if (meeting?.kind !== 'meeting' || meeting.setting === null) return [];
  const { by, low, high, warmTo } = meeting.setting;
  const what = high === null ? words.setting.soon(Math.floor(low / 60)) : words.setting.what[by](spanText(low, high));
  const so = warmTo === null ? words.setting.noWarmth : words.setting.warm(degrees(warmTo, show));
  return [{ key: 'setting', what, so, urgent: by === 'maker' }];
};

const actRows = (meeting: MeetingLane | null, show: ExpectedShow): readonly ExpectedRow[] => {
  if (meeting?.kind !== 'meeting') return [];
  const early = meeting.when.kind !== 'met' && meeting.joinable.kind === 'met';
  const acts = meeting.acts.map(({ kind, vessel, to, start, meets }) => ({
    key: `${kind}-${vessel}`,
    what: words.act(kind, vessel, degrees(to, show)),
    so: words.start(words.about(Math.round(start / 60)), whenText(meets, words.brings)),
    urgent: false,
  }));
  const joinable = { key: 'joinable', what: words.joinable(words.about(0)), so: words.advice, urgent: false };
  return early ? [joinable, ...acts] : acts;
};

/** What would bring them together soonest; empty without such an act. */
export const firstAct = (meeting: MeetingLane, display: Display): string => {
  const act = meeting.kind === 'meeting' ? meeting.acts[0] : undefined;
  return act === undefined ? '' : words.act(act.kind, act.vessel, temperatureText(act.to, display));
};

const noneRows = (vessel: Vessel, { outlook }: VesselLane): readonly ExpectedRow[] => {
  const what = words.vessels[vessel];
  if (outlook.kind === 'forecast') return outlook.setting ? [{ key: vessel, what, so: words.setting.now, urgent: true }] : [];
  const { why, blocks, needed } = outlook;
  return [{ key: vessel, what, so: words.none[why](blocks, needed), urgent: why === 'suspect' || why === 'out' }];
};

/** How hot the lye gets, or got. */
export const makingRows = (making: MakingLane | null, show: Pick<ExpectedShow, 'display'>): readonly ExpectedRow[] => {
  if (making === null) return [];
  const { likely, atMost, found, advice } = making;
  if (found !== null) {
    const so = words.making.against(likelyText(making, show), words.making.verdicts[found.verdict]);
    return [{ key: 'making', what: words.making.reached(degrees(found.highest, show)), so, urgent: found.verdict !== 'as-foretold' }];
  }
  const most = degrees(atMost.value + 2 * atMost.u, show);
  const expected = {
    key: 'making',
    what: words.making.expected,
    so: words.making.ahead(likelyText({ likely }, show), most),
    urgent: false,
  };
  if (advice === null) return [expected];
  const so =
    advice.kind === 'cold'
      ? words.making.cold(degrees(advice.celsius, show))
      : advice.kind === 'frozen'
        ? words.making.frozen(advice.percent)
        : words.making.advice[advice.kind];
  return [expected, { key: 'scorch', what: words.making.scorch, so, urgent: advice.kind !== 'as-it-is' }];
};

/** ± is two standard uncertainties, as everywhere. */
const likelyText = ({ likely }: Pick<MakingLane, 'likely'>, show: Pick<ExpectedShow, 'display'>): string =>
  `${degrees(likely.value, show)} ± ${differenceText(2 * likely.u, show.display)}`;

const newestMarks = (lane: ForecastLane) =>
  (['lye', 'oils'] as const)
    .flatMap((vessel) => lane[vessel].marks.slice(-1).map((mark) => ({ ...mark, vessel })))
    .toSorted((a, b) => b.noticed - a.noticed);

/** Where one of the two stands against the window; empty inside it. */
export const placeText = (vessel: Vessel, value: number, window: { readonly low: number; readonly high: number }, display: Display) => {
  if (value > window.high) return `${words.vessels[vessel]} ${words.above(differenceText(value - window.high, display))}`;
  return value < window.low ? `${words.vessels[vessel]} ${words.below(differenceText(window.low - value, display))}` : '';
};
