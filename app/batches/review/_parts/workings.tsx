'use client';
import type { Display } from '#lib/units/display';
import { numberText } from '#lib/units/format';
import type { ReviewContribution, ReviewLine } from '#lib/work/batch/index';
import { Measured } from '../../../_ui/figures';
import { messages as shared } from '../../../_ui/messages';
import { planStep, showIn } from '../../../_ui/quantities';
import { clockText } from '../../../_ui/times';
import { messages } from '../messages';
import { isJudged } from './model';
import type { NameOf } from './review-page';

interface Props {
  readonly line: ReviewLine;
  readonly step: number | null;
  readonly display: Display;
  readonly nameOf: NameOf;
  readonly onClose: () => void;
}

/** How one line's weight came about: every weight with its source, the crossed-out ones too, and the arithmetic below. */
export function Workings({ line, step, display, nameOf, onClose }: Props) {
  const { workings } = messages;
  const show = showIn(display);
  const { heads } = workings;
  const away = numberText(line.away / 1000, display.locale, 2);
  return (
    <>
      <h3 className="minor">{workings.title(line.material)}</h3>
      <table>
        <thead>
          <tr>
            <th scope="col">{heads.at}</th>
            <th scope="col">{heads.what}</th>
            <th scope="col" className="n">
              {heads.net}
            </th>
            <th scope="col" className="wide">
              {heads.shown}
            </th>
            <th scope="col" className="wide">
              {heads.where}
            </th>
            <th scope="col" className="wide">
              {heads.lot}
            </th>
          </tr>
        </thead>
        <tbody>
          {line.contributions.map((one) => (
            <tr key={one.entry}>
              <td className="n">{clockText(one.wall, { offsetMin: one.offsetMin, locale: display.locale }, true)}</td>
              <td>{whatOf(one, display)}</td>
              <td className="n">{netOf(one, show.mass(one.net, step))}</td>
              <td className="wide">{one.stated === null ? '' : `${one.stated.text} ${one.stated.unit}`}</td>
              <td className="wide">{one.instrument === null ? shared.byHand : nameOf(one.instrument)}</td>
              <td className="wide">{one.lot ?? workings.noLot}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="gap">
        {workings.sum} {show.mass(line.actual, step)} − {workings.target.toLowerCase()} {show.mass(line.target, planStep(line.target))} ={' '}
        {show.mass(line.difference, step, 'both')}
        {isJudged(line)
          ? `; ${workings.away(show.mass(line.difference, step, 'both'), show.mass(line.tolerance, planStep(line.tolerance)), away)}`
          : null}
      </p>
      <p>
        <button type="button" className="link" onClick={onClose}>
          {shared.close}
        </button>
      </p>
    </>
  );
}

const whatOf = (one: ReviewContribution, { locale }: Display): string => {
  const { workings, reasons } = messages;
  const kind = workings.kinds[one.kind];
  const how = one.kind === 'typed' ? '' : `, ${workings.how[one.how]}`;
  if (one.struck !== null) {
    const at = clockText(one.struck.wall, { offsetMin: one.offsetMin, locale });
    return `${kind}${how}; ${workings.crossed(reasons[one.struck.reason] ?? one.struck.reason, at)}`;
  }
  return `${kind}${how}${one.provisional ? `, ${workings.provisional}` : ''}`;
};

const netOf = (one: ReviewContribution, text: string) => {
  const figure = one.instrument === null ? text : <Measured>{text}</Measured>;
  return one.struck === null ? figure : <s>{figure}</s>;
};
