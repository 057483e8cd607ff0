import type { BatchReview, StoryEvent } from '#lib/work/batch/index';

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
  'pattern-dropped',
  'batter-wrong',
]);

/** Choosing a lot is none, unless it was one that should not be used; a note, where it says that it is. */
const isDeparture = ({ code, params }: StoryEvent): boolean =>
  DEPARTURES.has(code) ||
  (code === 'lot-chosen' && params['despite'] !== undefined) ||
  (code === 'noted' && params['deviation'] !== undefined);

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
    const letter = isDeparture(event) ? letterOf(letters++) : null;
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

/** What moves, leaves or is poured by a person's word alone; a weight that was typed counts for itself. */
const MOVES: ReadonlySet<StoryEvent['code']> = new Set(['moved', 'withdrawn', 'lost', 'split']);

/** How many masses besides the weights of lines a person stated. */
export const amountsByHand = (story: readonly StoryEvent[]): number =>
  story.filter(({ code, params }) => MOVES.has(code) && params['source'] === 'by-hand').length;
