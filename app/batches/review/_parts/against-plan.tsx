'use client';
import { Fragment, useId, useState } from 'react';
import type { CSSProperties } from 'react';
import type { ReviewLine } from '#lib/work/batch/index';
import type { BatchPage } from '#lib/protocol/http';
import type { Display } from '#lib/units/display';
import { numberText } from '#lib/units/format';
import { useDisplay } from '../../../_live/use';
import { Blank, Digits, Measured, Pad, Worked } from '../../../_ui/figures';
import { PaperSection } from '../../../_ui/paper';
import { massCell, massHead, placesOf, planStep, showIn } from '../../../_ui/quantities';
import type { Cell } from '../../../_ui/quantities';
import { messages } from '../messages';
import { AxisRule, Bar } from './bar';
import { axisOf, crossedOut, isJudged, lettersOf, stepOfLine, voiceOf } from './model';
import type { Axis, Told } from './model';
import type { NameOf } from './review-page';
import { Workings } from './workings';

interface Props {
  readonly review: BatchPage;
  readonly story: readonly Told[];
  readonly nameOf: NameOf;
}

/** Every line beside its plan, with its difference as a bar on one scale of tolerances. */
export function AgainstPlan({ review, story, nameOf }: Props) {
  const { lines } = review;
  const moved = lines.some((line) => line.moved);
  const crossed = lines.some((line) => crossedOut(line).length > 0);
  const { against } = messages;
  const note = (
    <>
      <p>{against.note}</p>
      {moved ? <p>{against.moved}</p> : null}
      {crossed ? <p>{against.crossed}</p> : null}
    </>
  );
  return (
    <PaperSection name={against.title} note={note}>
      <Table review={review} letters={lettersOf(story)} moved={moved} nameOf={nameOf} />
    </PaperSection>
  );
}

/** What every row of the table is drawn with. */
interface Columns {
  readonly display: Display;
  readonly axis: Axis;
  readonly moved: boolean;
  readonly plan: number;
  readonly tolerance: number;
  readonly actual: number;
  readonly width: number;
}

function Table({
  review,
  letters,
  moved,
  nameOf,
}: {
  readonly review: BatchPage;
  readonly letters: ReadonlyMap<string, string>;
  readonly moved: boolean;
  readonly nameOf: NameOf;
}) {
  const display = useDisplay();
  const [open, setOpen] = useState<string | null>(null);
  const { lines } = review;
  const axis = axisOf(lines);
  const columns: Columns = {
    display,
    axis,
    moved,
    plan: placesOf(
      lines.flatMap(({ planned, target }) => [planStep(planned.target), planStep(target)]),
      display,
    ),
    tolerance: placesOf(
      lines.map(({ tolerance }) => planStep(tolerance)),
      display,
    ),
    actual: placesOf([null, ...lines.map(stepOfLine)], display),
    width: moved ? 9 : 8,
  };
  const { heads } = messages.against;
  const unit = massHead(display);
  const band = { '--zero': `${axis.at(0)}%`, '--from': `${axis.at(-1)}%`, '--to': `${axis.at(1)}%` } as CSSProperties;
  return (
    <table className="bars" id="lines" style={band}>
      <caption className="unseen">{messages.against.caption}</caption>
      <thead>
        <tr>
          <th scope="col">{heads.line}</th>
          <th scope="col" className="lot">
            {heads.lot}
          </th>
          <Head name={heads.planned} unit={unit} />
          {moved ? <Head name={heads.moved} unit={unit} /> : null}
          <Head name={heads.actual} unit={unit} always />
          <Head name={heads.difference} unit={unit} always />
          <Head name={heads.tolerance} unit={unit === '' ? '±' : `± ${unit}`} />
          <Blank className="letter" />
          <th scope="col" className="scale">
            <span className="unseen">{heads.away}</span>
            <AxisRule axis={axis} word={heads.away} />
          </th>
        </tr>
      </thead>
      <tbody>
        {lines.map((line) => (
          <Row
            key={line.line}
            line={line}
            columns={columns}
            letter={letters.get(line.line) ?? ''}
            open={open === line.line}
            onOpen={() => setOpen(open === line.line ? null : line.line)}
            nameOf={nameOf}
          />
        ))}
      </tbody>
      <tfoot>
        <Total lines={lines} columns={columns} />
      </tfoot>
    </table>
  );
}

function Head({ name, unit, always = false }: { readonly name: string; readonly unit: string; readonly always?: boolean }) {
  return (
    <th scope="col" className={always ? 'n' : 'n wide'}>
      {name} <i>{unit}</i>
    </th>
  );
}

interface RowProps {
  readonly line: ReviewLine;
  readonly columns: Columns;
  readonly letter: string;
  readonly open: boolean;
  readonly onOpen: () => void;
  readonly nameOf: NameOf;
}

function Row({ line, columns, letter, open, onOpen, nameOf }: RowProps) {
  const { display, axis, moved, plan, tolerance, actual, width } = columns;
  const id = useId();
  const step = stepOfLine(line);
  const judged = isJudged(line);
  const write = (value: number): string => numberText(value, display.locale, 1);
  const worked = (cell: Cell, label: string) => (
    <Worked open={open} onOpen={onOpen} controls={id} label={`${cell.text}. ${label}`}>
      {cell.text}
    </Worked>
  );
  const difference = massCell(line.difference, step, display, actual, 'both');
  const label = messages.against.openRow(line.material);
  return (
    <Fragment>
      <tr data-line={line.line} data-outcome={line.outcome ?? 'open'}>
        <th scope="row">
          {line.material}
          {line.byHand ? <small> {messages.against.byHand}</small> : null}
        </th>
        <td className="lot">{line.lot ?? messages.workings.noLot}</td>
        <td className="n wide">
          <Digits cell={massCell(line.planned.target, planStep(line.planned.target), display, plan)} />
        </td>
        {moved ? (
          <td className="n wide">{line.moved ? <Digits cell={massCell(line.target, planStep(line.target), display, plan)} /> : null}</td>
        ) : null}
        <td className="n" data-actual="">
          <Crossed line={line} columns={columns} />
          <Actual line={line} cell={massCell(line.actual, step, display, actual)} worked={(cell) => worked(cell, label)} />
        </td>
        <td className="n">
          {judged ? (
            <>
              {worked(difference, label)}
              <Pad cell={difference} />
            </>
          ) : null}
        </td>
        <td className="n wide">
          <Digits cell={massCell(line.tolerance, planStep(line.tolerance), display, tolerance)} />
        </td>
        <td className="letter">
          <b>{letter}</b>
        </td>
        <td className="scale">
          <Bar axis={axis} away={judged ? line.away / 1000 : null} crossed={crossedOut(line)} write={write} />
          <span className="unseen">
            {judged ? messages.against.spoken(numberText(line.away / 1000, display.locale, 2)) : messages.against.open}
          </span>
        </td>
      </tr>
      {open ? (
        <tr className="slip" id={id}>
          <td colSpan={width + 1}>
            <Workings line={line} step={step} display={display} nameOf={nameOf} onClose={onOpen} />
          </td>
        </tr>
      ) : null}
    </Fragment>
  );
}

/** In the voice of where it comes from. */
function Actual({
  line,
  cell,
  worked,
}: {
  readonly line: ReviewLine;
  readonly cell: Cell;
  readonly worked: (cell: Cell) => React.ReactNode;
}) {
  const voice = voiceOf(line);
  if (voice === 'none') return <small>{line.status === 'closed' ? '' : messages.against.open}</small>;
  if (voice === 'entered') return <Digits cell={cell} />;
  if (voice === 'measured')
    return (
      <Measured>
        <Digits cell={cell} />
      </Measured>
    );
  return (
    <>
      {worked(cell)}
      <Pad cell={cell} />
    </>
  );
}

/** Weights that were crossed out stand above the one that counts. */
function Crossed({ line, columns: { display, actual } }: { readonly line: ReviewLine; readonly columns: Columns }) {
  const step = stepOfLine(line);
  return line.contributions
    .filter(({ struck }) => struck !== null)
    .map(({ entry, net }) => (
      <Fragment key={entry}>
        <s>
          <Digits cell={massCell(net, step, display, actual)} />
        </s>
        <br />
      </Fragment>
    ));
}

function Total({ lines, columns }: { readonly lines: readonly ReviewLine[]; readonly columns: Columns }) {
  const { display, axis, moved, plan, actual: places, width } = columns;
  const [open, setOpen] = useState(false);
  const id = useId();
  const whole = lines.every(isJudged);
  const sum = (of: (line: ReviewLine) => number): number => lines.reduce((total, line) => total + of(line), 0);
  const show = showIn(display);
  const cell = (value: number, to: number, sign: 'minus' | 'both' = 'minus') => {
    const one = massCell(value, null, display, to, sign);
    return (
      <>
        <Worked open={open} onOpen={() => setOpen(!open)} controls={id} label={`${one.text}. ${messages.against.totalRow}`}>
          {one.text}
        </Worked>
        <Pad cell={one} />
      </>
    );
  };
  const actual = sum((line) => line.actual);
  return (
    <>
      <tr>
        <th scope="row">{messages.against.total}</th>
        <Blank className="lot" />
        <td className="n wide">
          {cell(
            sum((line) => line.planned.target),
            plan,
          )}
        </td>
        {moved ? (
          <td className="n wide">
            {cell(
              sum((line) => line.target),
              plan,
            )}
          </td>
        ) : null}
        <td className="n">{cell(actual, places)}</td>
        {whole ? (
          <td className="n">
            {cell(
              sum((line) => line.difference),
              places,
              'both',
            )}
          </td>
        ) : (
          <Blank />
        )}
        <Blank className="wide" />
        <Blank className="letter" />
        <td className="scale">
          <AxisRule axis={axis} below />
        </td>
      </tr>
      {open ? (
        <tr className="slip" id={id}>
          <td colSpan={width + 1}>
            {messages.against.totalWorkings(lines.map((line) => show.mass(line.actual, stepOfLine(line))).join(' + '), show.mass(actual))}
          </td>
        </tr>
      ) : null}
    </>
  );
}
