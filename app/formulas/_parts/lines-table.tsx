'use client';
import { numberText } from '#lib/units/format';
import type { Planned } from '#lib/work/formula/index';
import { useDisplay } from '../../_live/use';
import { Blank } from '../../_ui/figures';
import { Head } from '../../_ui/head';
import { massHead, planStep, showIn } from '../../_ui/quantities';
import { on } from '../classes';
import { messages } from '../messages-plan';
import { plannedText } from './mass';
import { useSheet } from './use-sheet';

const SECONDS = 60;

/** Lines in the order of work, with blanks to write into when printed; below them what is done between, and how long it takes. */
export function LinesTable({ plan: { plan, lines, total, steps, time } }: { readonly plan: Planned }) {
  const display = useDisplay();
  const { workshop } = useSheet();
  const show = showIn(display);
  const { heads } = messages;
  const vessel = (id: string): string => plan.vessels.find((one) => one.id === id)?.name ?? id;
  const material = (id: string): string => plan.lines.find((one) => one.id === id)?.material.name ?? id;
  const mould = (id: string): string => workshop.context.moulds.find((one) => one.id === id)?.name ?? id;
  const said = steps.flatMap((step) => {
    const words = messages.step(step, vessel, mould, material, (celsius) => show.temperature(Math.round(1000 * celsius)));
    return words === null ? [] : [words];
  });
  return (
    <>
      <table className={on('table gap')} data-plan={plan.formula.id}>
        <thead>
          <tr>
            <Head name={heads.n} n wide />
            <Head name={heads.material} />
            <Head name={heads.target} unit={massHead(display)} n />
            <Head name={heads.tolerance} unit={`± ${massHead(display)}`} n />
            <Head name={heads.vessel} wide />
            <Head name={heads.scale} wide />
            <th scope="col" className={on('blank')}>
              {heads.actual}
            </th>
            <th scope="col" className={on('blank')}>
              {heads.lot}
            </th>
          </tr>
        </thead>
        <tbody>
          {plan.lines.map((line, at) => {
            const figures = lines.find((one) => one.line === line.id);
            const pours = figures?.pours ?? [];
            return (
              <tr key={line.id} data-line={line.id} data-target={line.target} data-tolerance={line.tolerance}>
                <td className={on('n wide')}>{at + 1}</td>
                <th scope="row">
                  {line.material.name}
                  {pours.length < 2 ? null : (
                    <span className={on('dim')}> {messages.pours(pours.map((one) => show.mass(one, planStep(one))))}</span>
                  )}
                </th>
                <td className={on('n')}>{plannedText(line.target, display)}</td>
                <td className={on('n')}>{plannedText(line.tolerance, display)}</td>
                <td className={on('wide')}>
                  {line.into === undefined ? vessel(line.vessel) : messages.carried(vessel(line.vessel), vessel(line.into))}
                </td>
                <td className={on('wide')}>{figures?.scale.scale == null ? messages.noScale : messages.scales[line.scale]}</td>
                <Blank className={on('blank')} />
                <td className={on('blank')}>{line.lot?.mark}</td>
              </tr>
            );
          })}
        </tbody>
        <tfoot>
          <tr>
            <Blank className={on('wide')} />
            <th scope="row">{messages.all}</th>
            <td className={on('n')}>{plannedText(total, display)}</td>
            <Blank />
            <Blank className={on('wide')} />
            <Blank className={on('wide')} />
            <Blank className={on('blank')} />
            <Blank className={on('blank')} />
          </tr>
        </tfoot>
      </table>
      <h3 className={on('minor gap')}>{messages.steps}</h3>
      <ol className={on('steps')}>
        {said.map((words) => (
          <li key={words}>
            <p>{words}</p>
          </li>
        ))}
      </ol>
      {time === null ? null : (
        <p className={on('dim gap')}>{messages.time[time.how](numberText(Math.round(time.seconds / SECONDS), display.locale))}</p>
      )}
    </>
  );
}
