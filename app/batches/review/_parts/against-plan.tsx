'use client';
import { useState } from 'react';
import type { CSSProperties } from 'react';
import type { BatchPage } from '#lib/protocol/http';
import { useDisplay } from '../../../_live/use';
import { Blank } from '../../../_ui/figures';
import { Head } from '../../../_ui/head';
import { massHead, placesOf } from '#lib/words/quantities';
import { PaperSection } from '../../../_ui/section';
import { messages } from '#lib/words/review/messages';
import { AxisRule } from './bar';
import { on } from './classes';
import { crossedOut, stepsOf } from '#lib/words/review/line';
import { lettersOf } from '#lib/words/review/told';
import { axisOf } from './model';
import type { Told } from '#lib/words/review/told';
import { PlanRow } from './plan-row';
import type { Columns } from './plan-row';
import { PlanTotal } from './plan-total';
import type { NameOf } from './who';

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

interface TableProps {
  readonly review: BatchPage;
  readonly letters: ReadonlyMap<string, string>;
  readonly moved: boolean;
  readonly nameOf: NameOf;
}

function Table({ review: { lines }, letters, moved, nameOf }: TableProps) {
  const display = useDisplay();
  const [open, setOpen] = useState<string | null>(null);
  const axis = axisOf(lines);
  const steps = lines.map((line) => stepsOf(line, display));
  const columns: Columns = {
    display,
    axis,
    moved,
    plan: placesOf(
      steps.flatMap(({ planned, target }) => [planned, target]),
      display,
    ),
    tolerance: placesOf(
      steps.map((step) => step.tolerance),
      display,
    ),
    actual: placesOf([null, ...steps.map(({ weighed }) => weighed)], display),
    width: moved ? 9 : 8,
  };
  const { heads } = messages.against;
  const unit = massHead(display);
  const band = { '--zero': `${axis.at(0)}%`, '--from': `${axis.at(-1)}%`, '--to': `${axis.at(1)}%` } as CSSProperties;
  return (
    <table className={on('table bars')} id="lines" style={band}>
      <caption className="unseen">{messages.against.caption}</caption>
      <thead>
        <tr>
          <Head name={heads.line} />
          <th scope="col" className={on('lot')}>
            {heads.lot}
          </th>
          <Head name={heads.planned} unit={unit} n wide />
          {moved ? <Head name={heads.moved} unit={unit} n wide /> : null}
          <Head name={heads.actual} unit={unit} n />
          <Head name={heads.difference} unit={unit} n />
          <Head name={heads.tolerance} unit={unit === '' ? '±' : `± ${unit}`} n wide />
          <Blank className={on('letter')} />
          <th scope="col" className={on('scale')}>
            <span className="unseen">{heads.away}</span>
            <AxisRule axis={axis} word={heads.away} />
          </th>
        </tr>
      </thead>
      <tbody>
        {lines.map((line) => (
          <PlanRow
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
        <PlanTotal lines={lines} columns={columns} />
      </tfoot>
    </table>
  );
}
