'use client';
import { numberText } from '#lib/units/format';
import type { Planned } from '#lib/work/formula/index';
import { useDisplay } from '../../_live/use';
import { Blank, Digits } from '../../_ui/figures';
import { Head } from '../../_ui/head';
import { massCell, massHead, placesOf, showIn, targetStep, toleranceStep } from '#lib/words/quantities';
import type { Cell } from '#lib/words/quantities';
import { on } from '../classes';
import { messages } from '../messages-plan';
import { useSheet } from './use-sheet';
import { WeighHead } from './weigh-head';
import { plannedText } from './mass';
import { OwnWorkings } from './own-workings';
import { Figure, Slip, SlipRow } from './workings';

const SECONDS = 60;
const COLUMNS = 6;
/** Of a line whose scale nobody has said the division of, mg. */
const TENTH = 100;

type Line = Planned['plan']['lines'][number];

const milli = (value: number): number => Math.round(1000 * value);

/** How masses of the lines stand in their columns: as fine as their scale shows, decimals under each other. */
const useCells = ({ plan, lines }: Planned) => {
  const display = useDisplay();
  const { workshop } = useSheet();
  const stepOf = (line: Line): number => {
    const scale = lines.find((one) => one.line === line.id)?.scale.scale;
    return workshop.context.scales.find(({ id }) => id === scale)?.division ?? TENTH;
  };
  const ofTolerance = (line: Line): number => toleranceStep(line.tolerance, stepOf(line), display);
  const ofTarget = (line: Line): number => targetStep(line.tolerance, stepOf(line), display);
  const places = placesOf(plan.lines.map(ofTarget), display);
  const finest = placesOf(plan.lines.map(ofTolerance), display);
  return {
    total: (milligrams: number): Cell => massCell(milligrams, TENTH, display, places),
    target: (line: Line): Cell => massCell(line.target, ofTarget(line), display, places),
    tolerance: (line: Line): Cell => massCell(line.tolerance, ofTolerance(line), display, finest),
  };
};

/** What is done for safety stands out from what is done for the soap. */
const SAFETY: ReadonlySet<string> = new Set(['protect', 'confirm-cold', 'dissolve']);

/** Weighings and what is done between them, in the order of work, with blanks to write into when printed; below it how long it takes. */
export function LinesTable({ plan: planned }: { readonly plan: Planned }) {
  const { plan, total, steps, time } = planned;
  const display = useDisplay();
  const { workshop } = useSheet();
  const show = showIn(display);
  const cells = useCells(planned);
  const { heads } = messages;
  const vessel = (id: string): string => plan.vessels.find((one) => one.id === id)?.name ?? id;
  const material = (id: string): string => plan.lines.find((one) => one.id === id)?.material.name ?? id;
  const mould = (id: string): string => workshop.context.moulds.find((one) => one.id === id)?.name ?? id;
  const words = {
    vessel,
    mould,
    material,
    temperature: (celsius: number) => show.temperature(milli(celsius)),
    difference: (kelvin: number) => show.difference(milli(kelvin)),
  };
  return (
    <OwnWorkings derivations={planned.derivations}>
      <WeighHead plan={planned} />
      <table className={on('table gap')} data-plan={plan.formula.id}>
        <thead>
          <tr>
            <Head name={heads.n} n wide />
            <Head name={heads.material} />
            <Head name={heads.target} unit={massHead(display)} n />
            <Head name={heads.tolerance} unit={`± ${massHead(display)}`} n />
            <th scope="col" className={on('blank')}>
              {heads.actual}
            </th>
            <th scope="col" className={on('blank')}>
              {heads.lot}
            </th>
          </tr>
        </thead>
        <tbody>
          {steps.map((step) => {
            const at = step.kind === 'weigh' ? plan.lines.findIndex(({ id }) => id === step.line) : -1;
            const line = plan.lines[at];
            const said = line === undefined ? messages.step(step, words) : null;
            if (line !== undefined) return <LineRow key={line.id} planned={planned} line={line} at={at} vessel={vessel} />;
            return said === null ? null : (
              <tr key={said} data-step={step.kind}>
                <Blank className={on('wide')} />
                <td colSpan={COLUMNS - 1}>{SAFETY.has(step.kind) ? <b>{said}</b> : said}</td>
              </tr>
            );
          })}
        </tbody>
        <tfoot>
          <tr>
            <Blank className={on('wide')} />
            <th scope="row">{messages.all}</th>
            <td className={on('n')}>
              <Figure of="batter">
                <Digits cell={cells.total(total)} />
              </Figure>
            </td>
            <Blank />
            <Blank className={on('blank')} />
            <Blank className={on('blank')} />
          </tr>
        </tfoot>
      </table>
      <Slip ids={['batter', 'time']} />
      {time === null ? null : (
        <p className={on('dim gap')}>
          {messages.time.about}{' '}
          <Figure of="time">{messages.time.minutes(numberText(Math.round(time.seconds / SECONDS), display.locale))}</Figure>
          {messages.time[time.how]}
        </p>
      )}
    </OwnWorkings>
  );
}

interface LineProps {
  readonly planned: Planned;
  readonly line: Line;
  readonly at: number;
  readonly vessel: (id: string) => string;
}

/** One weighing: what, how much within what, and where and how under its name. */
function LineRow({ planned, line, at, vessel }: LineProps) {
  const display = useDisplay();
  const { target, tolerance } = useCells(planned);
  const figures = planned.lines.find((one) => one.line === line.id);
  const pours = figures?.pours ?? [];
  const into =
    line.mode === 'loss'
      ? messages.byLoss(vessel(line.vessel))
      : line.into === undefined
        ? messages.into(vessel(line.vessel))
        : messages.carried(vessel(line.vessel), vessel(line.into));
  return (
    <>
      <tr data-line={line.id} data-target={line.target} data-tolerance={line.tolerance}>
        <td className={on('n wide')}>{at + 1}</td>
        <th scope="row">
          {line.material.name}
          <p className={on('dim')}>
            {into}, {figures?.scale.scale == null ? messages.noScale : messages.scales[line.scale]}
            {pours.length < 2
              ? null
              : `; ${messages.pours(pours.map((one) => `${plannedText(one, line.tolerance, display)} ${display.mass}`))}`}
          </p>
        </th>
        <td className={on('n')}>
          <Figure of={`line:${line.id}`}>
            <Digits cell={target(line)} />
          </Figure>
        </td>
        <td className={on('n')}>
          <Figure of={`tolerance:${line.id}`}>
            <Digits cell={tolerance(line)} />
          </Figure>
        </td>
        <Blank className={on('blank')} />
        <td className={on('blank')}>{line.lot?.mark}</td>
      </tr>
      <SlipRow ids={[`line:${line.id}`, `tolerance:${line.id}`]} columns={COLUMNS} />
    </>
  );
}
