import type { BatchPage } from '#lib/protocol/http';
import { messages } from '#lib/words/review/messages';
import { capital } from '#lib/words/words';

type Course = NonNullable<NonNullable<BatchPage['joining']>['course']>;

const minutes = (seconds: number): number => Math.round(seconds / 60);

/** What was foretold against what came, and where a law of cooling changed; nothing of a record that has neither. */
export function CourseWords({ course, metAfter }: { readonly course: Course; readonly metAfter: number | null }) {
  const { everyS, lye, oils, marks = [], foretold } = course;
  const joined = (Math.max(lye.length, oils.length) - 0.5) * everyS;
  const { foretold: words, ...joining } = messages.joining;
  return (
    <>
      {foretold === undefined ? null : (
        <p>
          {words.told(
            minutes(joined - foretold.at),
            minutes(foretold.meets.middle),
            Math.floor(foretold.meets.low / 60),
            Math.ceil(foretold.meets.high / 60),
          )}{' '}
          {metAfter === null ? words.unmet : words.met(minutes(metAfter), howOf(metAfter, foretold.meets, everyS))}
        </p>
      )}
      {marks.map(({ of, turn, since, noticed }) => (
        <p key={`${of} ${noticed}`}>
          {words.mark(capital(joining[of]), words.turns[turn], Math.max(0, minutes(joined - since)), minutes(noticed - since))}
        </p>
      ))}
    </>
  );
}

/** They are known to have met within a step of the course. */
const howOf = (after: number, { low, high }: NonNullable<Course['foretold']>['meets'], everyS: number): 'inside' | 'sooner' | 'later' => {
  if (after < low - everyS) return 'sooner';
  return after > high + everyS ? 'later' : 'inside';
};
