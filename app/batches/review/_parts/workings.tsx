'use client';
import type { Display } from '#lib/units/display';
import { numberText } from '#lib/units/format';
import type { ReviewContribution, ReviewLine } from '#lib/work/batch/index';
import { Measured } from '../../../_ui/figures';
import { messages as shared } from '../../../_ui/messages';
import { showIn } from '#lib/words/quantities';
import { reasonWords } from '#lib/words/reason-messages';
import { clockText } from '#lib/words/times';
import { Head } from '../../../_ui/head';
import { messages } from '#lib/words/review/messages';
import { isJudged, stepsOf } from '#lib/words/review/line';
import type { NameOf } from './who';
import { on } from './classes';

interface Props {
  readonly line: ReviewLine;
  readonly display: Display;
  readonly nameOf: NameOf;
  readonly onClose: () => void;
}

/** How one line's weight came about: every weight with its source, the crossed-out ones too, and the arithmetic below. */
export function Workings({ line, display, nameOf, onClose }: Props) {
  const { workings } = messages;
  const show = showIn(display);
  const { heads } = workings;
  const { weighed, target, tolerance } = stepsOf(line, display);
  const away = numberText(line.away / 1000, display.locale, 2);
  return (
    <>
      <h3 className={on('minor')}>{workings.title(line.material)}</h3>
      <table className={on('table')}>
        <thead>
          <tr>
            <Head name={heads.at} />
            <Head name={heads.what} />
            <Head name={heads.net} n />
            <Head name={heads.shown} wide />
            <Head name={heads.where} wide />
            <Head name={heads.lot} wide />
          </tr>
        </thead>
        <tbody>
          {line.contributions.map((one) => (
            <tr key={one.entry}>
              <td className={on('n')}>{clockText(one.wall, { offsetMin: one.offsetMin, locale: display.locale }, true)}</td>
              <td>{whatOf(one, display)}</td>
              <td className={on('n')}>
                {netOf(one, show.mass(one.net, weighed))}
                {one.amended === null ? null : ` ${show.mass(one.amended, weighed)}`}
              </td>
              <td className={on('wide')}>{one.stated === null ? '' : `${one.stated.text} ${one.stated.unit}`}</td>
              <td className={on('wide')}>{one.instrument === null ? shared.byHand : nameOf(one.instrument)}</td>
              <td className={on('wide')}>
                {one.rightLot === null ? (one.lot ?? workings.noLot) : <s>{one.lot ?? workings.noLot}</s>}
                {one.rightLot === null ? null : ` ${one.rightLot}`}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className={on('gap')}>
        {workings.sum} {show.mass(line.actual, weighed)} − {workings.target.toLowerCase()} {show.mass(line.target, target)} ={' '}
        {show.mass(line.difference, weighed, 'both')}
        {isJudged(line)
          ? `; ${workings.away(show.mass(line.difference, weighed, 'both'), show.mass(line.tolerance, tolerance), away)}`
          : null}
      </p>
      <p>
        <button type="button" className={on('link')} onClick={onClose}>
          {shared.close}
        </button>
      </p>
    </>
  );
}

const whatOf = (one: ReviewContribution, { locale }: Display): string => {
  const { workings } = messages;
  const kind = workings.kinds[one.kind];
  const how = one.kind === 'typed' ? '' : `, ${workings.how[one.how]}`;
  if (one.struck !== null) {
    const at = clockText(one.struck.wall, { offsetMin: one.offsetMin, locale });
    return `${kind}${how}; ${workings.crossed(reasonWords[one.struck.reason], at)}`;
  }
  return `${kind}${how}${one.provisional ? `, ${workings.provisional}` : ''}`;
};

const netOf = (one: ReviewContribution, text: string) => {
  const figure = one.instrument === null ? text : <Measured>{text}</Measured>;
  return one.struck === null && one.amended === null ? figure : <s>{figure}</s>;
};
