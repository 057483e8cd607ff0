'use client';
import { scaleLinear } from 'd3-scale';
import { useId, useState } from 'react';
import type { BatchPage } from '#lib/protocol/http';
import type { Display } from '#lib/units/display';
import { figureNumber, temperatureFigure } from '#lib/units/format';
import { useDisplay } from '../../../_live/use';
import { Worked } from '../../../_ui/figures';
import { showIn } from '#lib/words/quantities';
import type { Show } from '#lib/words/quantities';
import { clockText } from '#lib/words/times';
import { capital } from '#lib/words/words';
import { PaperSection } from '../../../_ui/section';
import { messages } from '#lib/words/review/messages';
import { on } from './classes';
import { CoursePicture } from './course';
import { CourseWords } from './course-words';

/** The two temperatures at joining, on one scale with what the plan asked of them. */
export function Joining({ review: { joining, limits } }: { readonly review: BatchPage }) {
  const display = useDisplay();
  const show = showIn(display);
  const words = messages.joining;
  const note = (
    <>
      <p>{words.note}</p>
      <p>{capital(limits.source)}.</p>
    </>
  );
  if (joining === null)
    return (
      <PaperSection name={words.title} note={note}>
        <p>{words.not}</p>
      </PaperSection>
    );
  const { lye, oils, overrides } = joining;
  const at = clockText(joining.wall, { offsetMin: joining.offsetMin, locale: display.locale });
  return (
    <PaperSection name={words.title} note={note}>
      {joining.course === null ? null : (
        <>
          <CoursePicture course={joining.course} limits={limits} display={display} />
          <CourseWords course={joining.course} metAfter={joining.metAfter} />
        </>
      )}
      <div className={on('gap')}>
        <Picture joining={joining} limits={limits} display={display} />
      </div>
      <Sentence joining={joining} at={at} allowed={show.difference(limits.allowedApart)} show={show} />
      {overrides.map(({ reason, value, limit, superfat }) => {
        const write = reason === 'apart' ? show.difference : show.temperature;
        const what = words.holds[reason];
        return (
          <p key={reason} className={on('reading')}>
            <b>
              {superfat !== null
                ? words.allowedHeavy(show.share(superfat.least), show.share(superfat.chance))
                : value === null || limit === null
                  ? words.allowedBare(what)
                  : words.allowed(what, write(value), write(limit))}
            </b>
          </p>
        );
      })}
      <span className="unseen">
        {words.picture(
          lye === null ? words.unknown : show.temperature(lye),
          oils === null ? words.unknown : show.temperature(oils),
          show.temperature(limits.window.low),
          show.temperature(limits.window.high),
        )}
      </span>
    </PaperSection>
  );
}

/** When, and how far apart they were; the difference opens to its workings. */
function Sentence({
  joining: { lye, oils, apart },
  at,
  allowed,
  show,
}: {
  readonly joining: NonNullable<BatchPage['joining']>;
  readonly at: string;
  readonly allowed: string;
  readonly show: Show;
}) {
  const [open, setOpen] = useState(false);
  const id = useId();
  const words = messages.joining;
  if (lye === null || oils === null || apart === null)
    return (
      <p className={on('reading gap')}>
        {words.at(at)} {words.apartUnknown}
      </p>
    );
  const text = show.difference(apart);
  return (
    <>
      <p className={on('reading gap')}>
        {words.at(at)}{' '}
        <Worked open={open} onOpen={() => setOpen(!open)} controls={id}>
          {text}
        </Worked>{' '}
        {words.apart}
        {words.limit(allowed)}
      </p>
      {open ? (
        <p id={id} className={on('slip')}>
          {words.workings(show.temperature(lye), show.temperature(oils), text)}
        </p>
      ) : null}
    </>
  );
}

interface PictureProps {
  readonly joining: NonNullable<BatchPage['joining']>;
  readonly limits: BatchPage['limits'];
  readonly display: Display;
}

const AXIS = 92;
const percent = (value: number): string => `${value}%`;

function Picture({ joining: { lye, oils, byHand }, limits, display }: PictureProps) {
  const { low, high } = limits.window;
  const known = [low, high, lye, oils, limits.oilsSetAt].filter((value) => value !== null);
  const scale = scaleLinear([Math.min(...known) - 6_000, Math.max(...known) + 6_000], [0, 100]);
  const number = (value: number, decimals = 1): string => figureNumber(temperatureFigure(value, display, decimals));
  const { unit } = temperatureFigure(0, display);
  // Whole tens of whichever degrees are shown.
  const degrees = (value: number): number => (display.temperature === 'C' ? value : ((value - 32) * 5) / 9) * 1000;
  const shown = scaleLinear(
    scale.domain().map((value) => (value / 1000) * (display.temperature === 'C' ? 1 : 1.8) + (display.temperature === 'C' ? 0 : 32)),
    [0, 100],
  );
  const words = messages.joining;
  const from = (use: 'lye' | 'oils'): string => (byHand.includes(use) ? '' : on('measured'));
  return (
    <svg className={on('drawing')} width="100%" height={128} role="presentation">
      <rect className={on('band')} x={percent(scale(low))} width={percent(scale(high) - scale(low))} y={0} height={AXIS} />
      <text className={on('quiet')} x={percent(scale(high))} dx={-8} y={14} textAnchor="end">
        {words.window}
      </text>
      <line className={on('axis')} x1="0%" x2="100%" y1={AXIS} y2={AXIS} />
      {shown.ticks(8).map((tick) => (
        <g key={tick}>
          <line className={on('axis')} x1={percent(scale(degrees(tick)))} x2={percent(scale(degrees(tick)))} y1={AXIS} y2={AXIS + 5} />
          <text x={percent(scale(degrees(tick)))} y={AXIS + 19} textAnchor="middle">
            {number(degrees(tick), 0)}
          </text>
        </g>
      ))}
      <text className={on('quiet')} x="100%" y={AXIS + 34} textAnchor="end">
        {unit}
      </text>
      {limits.oilsSetAt === null ? null : (
        <g>
          <line className={on('faint')} x1={percent(scale(limits.oilsSetAt))} x2={percent(scale(limits.oilsSetAt))} y1={3} y2={AXIS} />
          <text className={on('quiet')} x={percent(scale(limits.oilsSetAt))} dx={6} y={14}>
            {words.sets}
          </text>
        </g>
      )}
      <Mark use="lye" at={lye} scale={scale} y={42} text={lye === null ? '' : number(lye)} face={from('lye')} />
      <Mark use="oils" at={oils} scale={scale} y={68} text={oils === null ? '' : number(oils)} face={from('oils')} />
    </svg>
  );
}

interface MarkProps {
  readonly use: 'lye' | 'oils';
  readonly at: number | null;
  readonly scale: (value: number) => number;
  readonly y: number;
  readonly text: string;
  readonly face: string;
}

/** Lye is a round mark, oils a square one. */
function Mark({ use, at, scale, y, text, face }: MarkProps) {
  if (at === null) return null;
  const x = percent(scale(at));
  return (
    <g>
      <line className={on('axis')} x1={x} x2={x} y1={y} y2={AXIS} />
      {use === 'lye' ? (
        <circle className={on('lye')} cx={x} cy={y} r={5} />
      ) : (
        <svg x={x} y={y} overflow="visible">
          <rect className={on('oils')} x={-5} y={-5} width={10} height={10} />
        </svg>
      )}
      <text x={x} dx={12} y={y + 4.5}>
        <tspan className={on(use === 'lye' ? 'lye' : 'oils')} fontWeight={700}>
          {messages.joining[use]}
        </tspan>{' '}
        <tspan className={face}>{text}</tspan>
      </text>
    </g>
  );
}
