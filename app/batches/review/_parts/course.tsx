'use client';
import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { BatchPage } from '#lib/protocol/http';
import type { Display } from '#lib/units/display';
import { figureNumber, temperatureFigure } from '#lib/units/format';
import { messages } from '#lib/words/review/messages';
import { on } from './classes';
import { Foretold, foretoldRange, pictureEnd } from './course-foretold';

interface CoursePictureProps {
  readonly course: NonNullable<NonNullable<BatchPage['joining']>['course']>;
  readonly limits: BatchPage['limits'];
  readonly display: Display;
}

const HEIGHT = 192;
const FOOT = 140;
const percent = (value: number): string => `${value}%`;

/**
 * The way both took until they were joined, as the record has it, and what was foretold of it: the lye's line whole, the oils' broken; a
 * hole where nothing was heard.
 */
export function CoursePicture({ course, limits, display }: CoursePictureProps) {
  const { everyS, lye, oils } = course;
  const { low, high } = limits.window;
  const end = pictureEnd(course);
  const known = [...lye, ...oils, ...foretoldRange(course, end), low, high].filter((value) => value !== null);
  const last = Math.max(lye.length, oils.length) - 1;
  if (last < 1) return null;
  // Each is the mean of its step, and stands in the middle of it.
  const x = scaleLinear([0.5 * everyS, Math.max(end, (last + 0.5) * everyS)], [0, 92]);
  const step = (at: number): number => x((at + 0.5) * everyS);
  const y = scaleLinear([Math.min(...known) - 3_000, Math.max(...known) + 3_000], [FOOT, 0]);
  const draw = line<number | null>()
    .defined((value) => value !== null)
    .x((_, at) => step(at))
    .y((value) => y(value ?? 0));
  const number = (value: number, decimals = 0): string => figureNumber(temperatureFigure(value, display, decimals));
  const minutes = Math.round((last * everyS) / 60);
  const every = [1, 5, 10, 20, 30].find((one) => minutes / one <= 4) ?? 60;
  const ago = Array.from({ length: Math.floor(minutes / every) + 1 }, (_, at) => at * every);
  const ends = [lye.findLast((value) => value !== null) ?? null, oils.findLast((value) => value !== null) ?? null] as const;
  const words = messages.joining;
  // Names at the ends of the lines make room for each other.
  const apart = ends[0] === null || ends[1] === null ? Infinity : y(ends[1]) - y(ends[0]);
  const aside = Math.abs(apart) >= 16 ? 0 : ((16 - Math.abs(apart)) / 2) * (apart >= 0 ? -1 : 1);
  return (
    <figure>
      <figcaption className="unseen">{words.course(minutes)}</figcaption>
      <svg className={on('drawing')} width="100%" height={HEIGHT} role="presentation">
        <rect className={on('band')} x="0%" width="92%" y={y(high)} height={y(low) - y(high)} />
        {[low, high].map((edge) => (
          <text key={edge} className={on('quiet')} x={4} y={y(edge) - 5}>
            {number(edge)}
          </text>
        ))}
        <svg width="100%" height={FOOT} viewBox={`0 0 100 ${FOOT}`} preserveAspectRatio="none">
          <Foretold course={course} window={limits.window} at={{ x, y, foot: FOOT }} />
          <path d={draw(lye) ?? ''} fill="none" stroke="var(--lye)" strokeWidth={2.5} vectorEffect="non-scaling-stroke" />
          <path
            d={draw(oils) ?? ''}
            fill="none"
            stroke="var(--oils)"
            strokeWidth={2.5}
            strokeDasharray="7 3"
            vectorEffect="non-scaling-stroke"
          />
        </svg>
        {(['lye', 'oils'] as const).map((use, at) => {
          const newest = ends[at] ?? null;
          return newest === null ? null : (
            <text
              key={use}
              className={on(use)}
              fontWeight={700}
              x={percent(step(last))}
              dx={6}
              y={y(newest) + 4 + (at === 0 ? aside : -aside)}
            >
              {words[use]}
            </text>
          );
        })}
        <line className={on('axis')} x1="0%" x2="92%" y1={FOOT} y2={FOOT} />
        {ago.map((back) => {
          const at = percent(step(last - (back * 60) / everyS));
          return (
            <g key={back}>
              <line className={on('axis')} x1={at} x2={at} y1={FOOT} y2={FOOT + 5} />
              <text x={at} y={FOOT + 19} textAnchor={back === minutes ? 'start' : 'middle'}>
                {words.ago(back)}
              </text>
            </g>
          );
        })}
      </svg>
    </figure>
  );
}
