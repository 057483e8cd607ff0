import { ENOUGH_BLOCKS } from './follow';
import { doubtOf } from './hindsight';
import type { CoolingMemory } from './memory';
import { deviation, lawOf, predict } from './mixture';
import { atOwnPace, paceOf, slowed } from './pace';
import { roomCelsius } from './rooms';
import type { Fit } from './fit';
import type { Ahead, Doubt, Forecast, NoForecast, Outlook, Room } from './types';

/** Older than this the newest block says nothing of now, s. */
const SILENT_S = 90;
/** An interval wider than this says nothing, K. */
const WIDEST = 15;
/** Seconds ahead that must be told within that width for a forecast to be one. */
const SHORTEST = 300;
const Z95 = 1.96;
const WARMER = 3;

/** Seconds ahead: every half minute at first, every five at three hours. */
const AFTER: readonly number[] = [
  ...Array.from({ length: 20 }, (_, i) => i * 30),
  ...Array.from({ length: 20 }, (_, i) => 600 + i * 60),
  ...Array.from({ length: 15 }, (_, i) => 1800 + i * 120),
  ...Array.from({ length: 25 }, (_, i) => 3600 + i * 300),
];

/** Where the vessel is going as far as is known now, or why it is not known. */
export const outlook = (memory: CoolingMemory, room: Room, now: number): Outlook => {
  const { fit, since } = memory;
  const why = whyNot(memory, now);
  if (why !== null || fit === null || since === null) return none(memory, why ?? 'not-yet');
  const doubt = doubtOf(fit.at - since, memory.turn, memory.hindsight);
  const lag = Math.max(0, now - fit.at);
  const ahead = ranges(memory, fit, doubt, lag, roomCelsius(room));
  const beyond = ahead.findIndex(({ low, high }) => high - low > WIDEST);
  const until = (beyond === -1 ? ahead.at(-1) : ahead[beyond - 1])?.after ?? 0;
  if (until < SHORTEST) return none(memory, 'wide');
  const forecast: Forecast = { kind: 'forecast', at: now, since, ahead, until, setting: memory.setting, laws: fit.laws.map(lawOf), doubt };
  return forecast;
};

const none = ({ blocks }: CoolingMemory, why: NoForecast): Outlook => ({ kind: 'none', why, blocks: blocks.length, needed: ENOUGH_BLOCKS });

const whyNot = (memory: CoolingMemory, now: number): NoForecast | null => {
  const heard = memory.out?.heard.at(-1) ?? memory.leap ?? memory.blocks.at(-1);
  if (heard === undefined) {
    if (memory.filling !== null) return 'not-yet';
    // A person said that it was moved: what comes next is its first.
    if (memory.since === null) return 'nothing-heard';
    return now - memory.since > SILENT_S ? 'silent' : 'not-yet';
  }
  if (now - heard.at > SILENT_S) return 'silent';
  if (memory.out !== null) return 'out';
  if (memory.rising) return 'rising';
  if (memory.blocks.length < ENOUGH_BLOCKS) return 'not-yet';
  return memory.leap !== null || memory.doubtful ? 'suspect' : null;
};

/** A law that holds keeps its vessel between where it is and the room, whatever its variance says. */
const limits = ({ laws }: Fit, m0: number): { readonly low: number; readonly high: number } => ({
  low: Math.min(m0 - 0.5, ...laws.map((law) => law.room)),
  high: m0 + Math.max(WARMER, ...laws.map((law) => law.room - m0)),
});

const ranges = (memory: CoolingMemory, fit: Fit, doubt: Doubt, lag: number, room: number): readonly Ahead[] => {
  const m0 = predict(fit, 0).mean;
  const { low: floor, high: ceiling } = limits(fit, m0);
  const widen = setting(memory, fit, m0, room);
  return AFTER.map((after) => {
    const then = predict(fit, after + lag);
    const sd = deviation(then, m0 - then.mean, after + lag, doubt);
    const wide = widen({ after, low: then.mean - Z95 * sd, middle: then.mean, high: then.mean + Z95 * sd }, sd, lag);
    return {
      after,
      low: clamp(wide.low, floor, ceiling),
      middle: clamp(wide.middle, floor, ceiling),
      high: clamp(wide.high, floor, ceiling),
    };
  });
};

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

type Widen = (range: Ahead, sd: number, lag: number) => Ahead;

/**
 * Oils in which a fat may set: the temperature may halt anywhere below, so the interval reaches up to there; and where they have slowed
 * already the halt may end at once, so it reaches down to where their own pace would take them.
 */
const setting = ({ contents, pace }: CoolingMemory, fit: Fit, m0: number, room: number): Widen => {
  const { kind, setsBelow } = contents;
  if (kind !== 'oils' || setsBelow === null) return (range) => range;
  const halts = Math.min(m0, setsBelow);
  const hasSlowed = slowed(contents, pace, paceOf(fit, room), m0) !== 'no';
  return (range, sd, lag) => ({
    ...range,
    low: hasSlowed && pace !== null ? Math.min(range.low, atOwnPace(pace, m0, room, range.after + lag) - sd) : range.low,
    high: range.middle < halts ? Math.max(range.high, halts + HALT_MARGIN) : range.high,
  });
};
const HALT_MARGIN = 0.5;
