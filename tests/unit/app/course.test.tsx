// @vitest-environment jsdom
import { cleanup, render } from '@testing-library/react';
import { afterEach, expect, it } from 'vitest';
import type { TemperatureCourse } from '#lib/work/batch/index';
import { celsius } from '#lib/units/temperature';
import { started } from '#tests/support/batch';
import { CoursePicture } from '../../../app/batches/review/_parts/course';
import { CourseWords } from '../../../app/batches/review/_parts/course-words';

afterEach(cleanup);

const steps = [0, 600, 1_200, 7_200].map((after) => ({ after, low: celsius(40), middle: celsius(41), high: celsius(42) }));
/** Half an hour; foretold in its tenth minute, and a bath noticed before. */
const COURSE: TemperatureCourse = {
  everyS: 60,
  lye: Array.from({ length: 30 }, (_, i) => celsius(70 - i)),
  oils: Array.from({ length: 30 }, () => celsius(42)),
  marks: [{ of: 'lye', turn: 'faster', since: 300, noticed: 420 }],
  foretold: { at: 600, meets: { low: 600, middle: 900, high: 1_260 }, lye: steps, oils: steps },
};
const words = (course: TemperatureCourse, metAfter: number | null): string => {
  cleanup();
  return render(<CourseWords course={course} metAfter={metAfter} />).container.textContent ?? '';
};

it('says what was foretold, whether it came so, and where a law changed', () => {
  expect(words(COURSE, 870)).toBe(
    'Foretold 20 min before joining: they meet by themselves in 15 min, 95 times in 100 in 10 to 21 min. ' +
      'They met after 15 min, inside that span.Lye cooled faster, from 25 min before joining; noticed 2 min later.',
  );
  expect(words(COURSE, 400)).toContain('They met after 7 min, sooner than that.');
  expect(words(COURSE, 1_500)).toContain('They met after 25 min, later than that.');
  expect(words(COURSE, null)).toContain('They were joined before they met.');
  expect(words({ everyS: 60, lye: COURSE.lye, oils: COURSE.oils }, null)).toBe('');
});

it('draws both intervals, the span of the meeting and the change, inside the picture however late they were to meet', () => {
  const { joining: limits } = started().now.plan;
  const display = { mass: 'g', temperature: 'C', locale: 'en-GB' } as const;
  const drawn = (course: TemperatureCourse) => {
    cleanup();
    const { container } = render(<CoursePicture course={course} limits={limits} display={display} />);
    const curves = container.querySelector('svg svg');
    const span = curves?.querySelector('rect');
    const right = span == null ? null : Number(span.getAttribute('x')) + Number(span.getAttribute('width'));
    return { right, bands: curves?.querySelectorAll('path[fill-opacity]').length, marks: curves?.querySelectorAll('line').length };
  };
  expect(drawn(COURSE)).toMatchObject({ bands: 2, marks: 1 });
  expect(drawn(COURSE).right).toBeLessThanOrEqual(92.001);
  const late = { ...COURSE, foretold: { at: 600, meets: { low: 3_600, middle: 5_000, high: 7_000 }, lye: steps, oils: steps } };
  expect(drawn(late).right).toBeNull();
  expect(drawn({ everyS: 60, lye: COURSE.lye, oils: COURSE.oils })).toEqual({ right: null, bands: 0, marks: 0 });
});
