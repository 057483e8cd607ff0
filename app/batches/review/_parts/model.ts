import { scaleLinear } from 'd3-scale';
import type { ReviewLine } from '#lib/work/batch/index';
import { crossedOut, isJudged } from '#lib/words/review/line';

/** A bar this long runs off the picture; its number says how far. In tolerances. */
const LONGEST = 8;
const LEAST = 2;

/** The one scale of all bars, in tolerances away, in per cent of the picture's width, with room for words at the right. */
export const axisOf = (lines: readonly ReviewLine[]) => {
  const all = lines.flatMap((line) => [...(isJudged(line) ? [line.away / 1000] : []), ...crossedOut(line)]);
  const low = Math.max(-LONGEST, Math.min(-LEAST, Math.floor(Math.min(0, ...all))));
  const high = Math.min(LONGEST, Math.max(LEAST, Math.ceil(Math.max(0, ...all))));
  const scale = scaleLinear([low, high], [2, 66]).clamp(true);
  const every = high - low > 9 ? 2 : 1;
  const ticks = scale.ticks(high - low).filter((tick) => Number.isInteger(tick) && tick % every === 0);
  return { low, high, ticks, at: (away: number): number => scale(away) };
};
export type Axis = ReturnType<typeof axisOf>;
