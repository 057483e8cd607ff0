import { line } from 'd3-shape';
import type { BatchPage } from '#lib/protocol/http';

type Course = NonNullable<NonNullable<BatchPage['joining']>['course']>;
type Steps = NonNullable<Course['foretold']>['lye'];

/** Of the drawing stretched over the width: `x` from seconds of the course, `y` from thousandths of a degree. */
interface Place {
  readonly x: (seconds: number) => number;
  readonly y: (value: number) => number;
  readonly foot: number;
}

/** What was foretold of both, dashed in its 95 % interval, the span of the meeting in its window, and a dotted line where a law began. */
export function Foretold({ course, window, at }: { readonly course: Course; readonly window: Window; readonly at: Place }) {
  const { foretold, marks = [] } = course;
  const { x, foot } = at;
  const end = pictureEnd(course);
  return (
    <>
      {marks.map(({ of, since, noticed }) => (
        <line key={`${of} ${noticed}`} {...{ x1: x(since), x2: x(since), y1: 0, y2: foot }} stroke={`var(--${of})`} {...DOTTED} />
      ))}
      {foretold === undefined ? null : (
        <>
          {(['lye', 'oils'] as const).map((of) => (
            <Way key={of} steps={shown(foretold[of], foretold.at, end)} from={foretold.at} of={of} at={at} />
          ))}
          <Span foretold={foretold} end={end} window={window} place={at} />
        </>
      )}
    </>
  );
}

interface SpanProps {
  readonly foretold: NonNullable<Course['foretold']>;
  readonly end: number;
  readonly window: Window;
  readonly place: Place;
}

/** The span of the meeting in its window, as far as the picture goes. */
function Span({ foretold: { at, meets }, end, window, place: { x, y } }: SpanProps) {
  const [left, right] = [x(Math.min(end, at + meets.low)), x(Math.min(end, at + meets.high))];
  if (right <= left) return null;
  return (
    <rect
      x={left}
      width={Math.max(0.4, right - left)}
      y={y(window.high)}
      height={y(window.low) - y(window.high)}
      fill="none"
      stroke="var(--ink)"
      strokeWidth={1.5}
      vectorEffect="non-scaling-stroke"
    />
  );
}

interface Window {
  readonly low: number;
  readonly high: number;
}

const DOTTED = { strokeWidth: 1.5, strokeDasharray: '1.5 4', vectorEffect: 'non-scaling-stroke' } as const;

function Way({
  steps,
  from,
  of,
  at: { x, y },
}: {
  readonly steps: Steps;
  readonly from: number;
  readonly of: 'lye' | 'oils';
  readonly at: Place;
}) {
  const path = line<readonly [after: number, value: number]>()
    .x(([after]) => x(from + after))
    .y(([, value]) => y(value));
  const ends = [
    ...steps.map(({ after, high }) => [after, high] as const),
    ...steps.toReversed().map(({ after, low }) => [after, low] as const),
  ];
  const ink = `var(--${of})`;
  return (
    <>
      <path d={path(ends) ?? ''} fill={ink} fillOpacity={0.18} />
      <path
        d={path(steps.map(({ after, middle }) => [after, middle] as const)) ?? ''}
        fill="none"
        stroke={ink}
        strokeWidth={1.25}
        strokeDasharray="3 3"
        vectorEffect="non-scaling-stroke"
      />
    </>
  );
}

/** Seconds of the course that the picture reaches to: what was foretold, no further than twice what happened. */
export const pictureEnd = ({ foretold, everyS, lye, oils }: Course): number => {
  const happened = Math.max(lye.length, oils.length) * everyS;
  return foretold === undefined ? happened : Math.max(happened, Math.min(2 * happened, foretold.at + foretold.meets.high));
};

/** The lowest and highest of what was foretold, up to there. */
export const foretoldRange = ({ foretold }: Course, end: number): readonly number[] =>
  foretold === undefined ? [] : shown([...foretold.lye, ...foretold.oils], foretold.at, end).flatMap(({ low, high }) => [low, high]);

const shown = (steps: Steps, from: number, end: number): Steps => steps.filter(({ after }) => from + after <= end);
