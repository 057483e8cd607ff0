'use client';
import { useId, useState } from 'react';
import type { ReviewLine } from '#lib/work/batch/index';
import { Blank, Pad, Worked } from '../../../_ui/figures';
import { massCell, showIn } from '#lib/words/quantities';
import { messages } from '#lib/words/review/messages';
import { AxisRule } from './bar';
import { on } from './classes';
import { isJudged, stepsOf } from '#lib/words/review/line';
import type { Columns } from './plan-row';

/** All lines added, as planned, as moved and as weighed; the difference once every line has one. */
export function PlanTotal({ lines, columns }: { readonly lines: readonly ReviewLine[]; readonly columns: Columns }) {
  const { display, axis, moved, plan, actual: places, width } = columns;
  const [open, setOpen] = useState(false);
  const id = useId();
  const sum = (of: (line: ReviewLine) => number): number => lines.reduce((total, line) => total + of(line), 0);
  const show = showIn(display);
  const worked = (value: number, to: number, sign: 'minus' | 'both' = 'minus') => {
    const cell = massCell(value, null, display, to, sign);
    return (
      <>
        <Worked open={open} onOpen={() => setOpen(!open)} controls={id} label={`${cell.text}. ${messages.against.totalRow}`}>
          {cell.text}
        </Worked>
        <Pad cell={cell} />
      </>
    );
  };
  const actual = sum((line) => line.actual);
  const planned = sum((line) => line.planned.target);
  const terms = lines.map((line) => show.mass(line.actual, stepsOf(line, display).weighed)).join(' + ');
  return (
    <>
      <tr>
        <th scope="row">
          {messages.against.total}
          <small className={on('narrow')}>{messages.against.underPlanned(show.mass(planned))}</small>
        </th>
        <Blank className={on('lot')} />
        <td className={on('n wide')}>{worked(planned, plan)}</td>
        {moved ? (
          <td className={on('n wide')}>
            {worked(
              sum((line) => line.target),
              plan,
            )}
          </td>
        ) : null}
        <td className={on('n')}>{worked(actual, places)}</td>
        <td className={on('n')}>
          {lines.every(isJudged)
            ? worked(
                sum((line) => line.difference),
                places,
                'both',
              )
            : null}
        </td>
        <Blank className={on('wide')} />
        <Blank className={on('letter')} />
        <td className={on('scale')}>
          <AxisRule axis={axis} below />
        </td>
      </tr>
      {open ? (
        <tr className={on('slip')} id={id}>
          <td colSpan={width + 1}>{messages.against.totalWorkings(terms, show.mass(actual))}</td>
        </tr>
      ) : null}
    </>
  );
}
