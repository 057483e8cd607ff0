import { scaleLinear } from 'd3-scale';
import type { BatchReview, ReviewContribution, ReviewLine, StoryEvent } from '#lib/work/batch/index';
import { crossedOutAway } from '../../../_ui/away';
import { stepOf } from '../../../_ui/quantities';

/** The finest step any weight of the line was stated in, mg; `null` before the first. */
export const stepOfLine = (line: ReviewLine): number | null => {
  const steps = line.contributions.flatMap(({ stated }) => stepOf(stated) ?? []);
  return steps.length === 0 ? null : Math.min(...steps);
};

const counting = (line: ReviewLine): readonly ReviewContribution[] => line.contributions.filter(({ struck }) => struck === null);

/** Whose figure the actual weight is: one scale's, a person's, or a sum. `none`: nothing was weighed. */
export const voiceOf = (line: ReviewLine): 'measured' | 'entered' | 'worked' | 'none' => {
  const [only, ...more] = counting(line);
  if (only === undefined) return 'none';
  if (more.length > 0) return 'worked';
  return only.how === 'typed' ? 'entered' : 'measured';
};

/** How far the line stood from its target with each weight that was later crossed out, in tolerances. */
export const crossedOut = ({ contributions, target, tolerance }: ReviewLine): readonly number[] =>
  crossedOutAway(contributions, target, tolerance);

/** Whether the difference says something: the line is closed, or over already. */
export const isJudged = (line: ReviewLine): boolean => line.status === 'closed' || line.away > 1000;

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

/** One thing that happened; an over-pour carries its answer. */
export interface Told extends StoryEvent {
  readonly answer: StoryEvent | null;
  /** Letter of a departure from the plan, by which a line's row and the story name the same thing. */
  readonly letter: string | null;
}

const OVER = new Set<StoryEvent['code']>(['over-pour', 'over-pour-red']);
const ANSWERS = new Set<StoryEvent['code']>(['over-carried-on', 'over-crossed-out', 'remedy-chosen']);
const DEPARTURES = new Set<StoryEvent['code']>([
  ...OVER,
  'typed-by-hand',
  'crossed-out',
  'question-kept',
  'question-struck',
  'closed-short',
  'remedy-chosen',
  'wrong-stated',
  'override',
  'replanned',
  'lost',
]);

const letterOf = (n: number): string => (n < 26 ? String.fromCharCode(97 + n) : `${letterOf(Math.floor(n / 26) - 1)}${letterOf(n % 26)}`);

/** The story with each over-pour and its answer as one, and a letter on whatever departed from the plan. */
export const storyOf = (review: Pick<BatchReview, 'story'>): readonly Told[] => {
  const taken = new Set<StoryEvent>();
  let letters = 0;
  return review.story.flatMap((event, at) => {
    if (taken.has(event)) return [];
    const rest = review.story.slice(at + 1);
    const answer = OVER.has(event.code)
      ? (rest.find(({ code, params }) => ANSWERS.has(code) && params['line'] === event.params['line']) ?? null)
      : null;
    // A way out is told by itself: what it was chosen from is a story of its own.
    if (answer !== null && answer.code !== 'remedy-chosen') taken.add(answer);
    // Crossing out as the answer to an over-pour is told with it.
    const crossed =
      answer?.code === 'over-crossed-out'
        ? rest.find(
            ({ code, version, params }) => code === 'crossed-out' && version > answer.version && params['line'] === event.params['line'],
          )
        : undefined;
    if (crossed !== undefined && crossed.wall === answer?.wall) taken.add(crossed);
    const letter = DEPARTURES.has(event.code) ? letterOf(letters++) : null;
    return [{ ...event, answer, letter }];
  });
};

/** Letters of what departed from the plan in each line. */
export const lettersOf = (story: readonly Told[]): ReadonlyMap<string, string> => {
  const letters = new Map<string, string>();
  for (const { letter, params } of story) {
    const line = params['line'];
    if (letter !== null && typeof line === 'string') letters.set(line, `${letters.get(line) ?? ''}${letter}`);
  }
  return letters;
};
