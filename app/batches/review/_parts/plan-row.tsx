'use client';
import { Fragment, useId } from 'react';
import type { ReactNode } from 'react';
import type { Display } from '#lib/units/display';
import { numberText } from '#lib/units/format';
import type { ReviewLine } from '#lib/work/batch/index';
import { Digits, Measured, Pad, Worked } from '../../../_ui/figures';
import { massCell, showIn } from '#lib/words/quantities';
import type { Cell } from '#lib/words/quantities';
import { messages } from '#lib/words/review/messages';
import { Bar } from './bar';
import { on } from './classes';
import { crossedOut, isJudged, lotsOfLine, stepsOf, voiceOf } from '#lib/words/review/line';
import type { Axis } from './model';
import type { NameOf } from './who';
import { Workings } from './workings';

/** What every row of the table is drawn with. */
export interface Columns {
  readonly display: Display;
  readonly axis: Axis;
  /** Some target was moved: there is a column for it. */
  readonly moved: boolean;
  /** Decimals of each column. */
  readonly plan: number;
  readonly tolerance: number;
  readonly actual: number;
  /** Columns before the bars. */
  readonly width: number;
}

interface RowProps {
  readonly line: ReviewLine;
  readonly columns: Columns;
  readonly letter: string;
  readonly open: boolean;
  readonly onOpen: () => void;
  readonly nameOf: NameOf;
}

/** One line: planned, actual, difference, and its bar; opens to the weights it comes from. */
export function PlanRow({ line, columns, letter, open, onOpen, nameOf }: RowProps) {
  const { display, axis, moved, plan, tolerance, actual, width } = columns;
  const id = useId();
  const steps = stepsOf(line, display);
  const judged = isJudged(line);
  const write = (value: number): string => numberText(value, display.locale, 1);
  const label = messages.against.openRow(line.material);
  const worked = (cell: Cell) => (
    <>
      <Worked open={open} onOpen={onOpen} controls={id} label={`${cell.text}. ${label}`}>
        {cell.text}
      </Worked>
      <Pad cell={cell} />
    </>
  );
  return (
    <Fragment>
      <tr data-line={line.line} data-outcome={line.outcome ?? 'open'}>
        <th scope="row">
          <Name line={line} display={display} />
        </th>
        <td className={on('lot')}>
          <Lots line={line} />
        </td>
        <td className={on('n wide')}>
          <Digits cell={massCell(line.planned.target, steps.planned, display, plan)} />
        </td>
        {moved ? (
          <td className={on('n wide')}>{line.moved ? <Digits cell={massCell(line.target, steps.target, display, plan)} /> : null}</td>
        ) : null}
        <td className={on('n')} data-actual="">
          <Crossed line={line} columns={columns} />
          <Actual line={line} cell={massCell(line.actual, steps.weighed, display, actual)} worked={worked} />
        </td>
        <td className={on('n')}>{judged ? worked(massCell(line.difference, steps.weighed, display, actual, 'both')) : null}</td>
        <td className={on('n wide')}>
          <Digits cell={massCell(line.tolerance, steps.tolerance, display, tolerance)} />
        </td>
        <td className={on('letter')} data-letter={letter}>
          <b>{letter}</b>
        </td>
        <td className={on('scale')}>
          <Bar axis={axis} away={judged ? line.away / 1000 : null} crossed={crossedOut(line)} write={write} />
          <span className="unseen">
            {judged
              ? messages.against.spoken(numberText(line.away / 1000, display.locale, 2))
              : messages.against[voiceOf(line) === 'none' ? 'open' : 'unfinished']}
          </span>
        </td>
      </tr>
      {open ? (
        <tr className={on('slip')} id={id}>
          <td colSpan={width + 1}>
            <Workings line={line} display={display} nameOf={nameOf} onClose={onOpen} />
          </td>
        </tr>
      ) : null}
    </Fragment>
  );
}

/** Where there is no room for a column of plans, the plan stands under the name. */
function Name({ line, display }: { readonly line: ReviewLine; readonly display: Display }) {
  const { against } = messages;
  const target = showIn(display).mass(line.target, stepsOf(line, display).target);
  return (
    <>
      {line.material}
      {line.byHand ? <small> {against.byHand}</small> : null}
      <small className={on('narrow')}>{line.moved ? against.underMoved(target) : against.underPlanned(target)}</small>
    </>
  );
}

interface ActualProps {
  readonly line: ReviewLine;
  readonly cell: Cell;
  readonly worked: (cell: Cell) => ReactNode;
}

/** In the voice of where it comes from. */
function Actual({ line, cell, worked }: ActualProps) {
  const voice = voiceOf(line);
  if (voice === 'none') return <small>{line.status === 'closed' ? '' : messages.against.open}</small>;
  if (voice === 'entered') return <Digits cell={cell} />;
  if (voice === 'worked') return worked(cell);
  return (
    <Measured>
      <Digits cell={cell} />
    </Measured>
  );
}

/** Weights that were crossed out stand above the one that counts. */
function Crossed({ line, columns: { display, actual } }: { readonly line: ReviewLine; readonly columns: Columns }) {
  const steps = stepsOf(line, display);
  return line.contributions
    .filter(({ struck }) => struck !== null)
    .map(({ entry, net }) => (
      <Fragment key={entry}>
        <s>
          <Digits cell={massCell(net, steps.weighed, display, actual)} />
        </s>
        <br />
      </Fragment>
    ));
}

/** The right lots; one that was stated first stays to be seen. */
function Lots({ line }: { readonly line: ReviewLine }) {
  const lots = lotsOfLine(line);
  if (lots.length === 0) return messages.workings.noLot;
  return lots.map(({ mark, stated }, at) => (
    <Fragment key={`${mark} ${stated ?? ''}`}>
      {at > 0 ? ', ' : null}
      {stated === null ? null : <s>{stated}</s>} {mark}
    </Fragment>
  ));
}
