'use client';
import type { Route } from 'next';
import Link from 'next/link';
import { useState } from 'react';
import { figureNumber, massFigure, numberText } from '#lib/units/format';
import { massHead } from '#lib/words/quantities';
import { shortDate } from '#lib/words/times';
import type { BarWeight } from '#lib/work/bars/index';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import { TextField } from '../../_ui/fields';
import { Blank, Measured } from '../../_ui/figures';
import { Head } from '../../_ui/head';
import { Problem } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { lotMessages } from '../messages-lot';
import { barMass } from './bar-mass';
import { numberIn } from './cut-model';
import type { LotProps } from './lot-props';
import { daysSince } from './stage';
import { CrossLast } from './cross-last';
import { useWant } from './use-want';
import { weighDaysOf } from './weigh-days';
import type { WeighDay } from './weigh-days';

/** A few marked bars weighed now and then: at the bench, or typed. */
export function Weighings({ page, again }: LotProps) {
  const { row, state, followed } = page;
  const { weighings: words } = lotMessages;
  const days = weighDaysOf(state.weights, row.weighings);
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      {days.length === 0 ? (
        <p className={on('none')}>{words.none}</p>
      ) : (
        <Table days={days} bars={followed.slice(0, MOST_COLUMNS)} page={page} />
      )}
      <div className={on('acts')}>
        <Link className={on('act first')} href={`/bench/bars?id=${encodeURIComponent(row.id)}` as Route} prefetch={false}>
          {words.bench}
        </Link>
      </div>
      <Typing page={page} again={again} />
    </PaperSection>
  );
}

/** More would not stand beside each other; the mean has them all. */
const MOST_COLUMNS = 5;
function Table({
  days,
  bars,
  page: { row },
}: {
  readonly days: readonly WeighDay[];
  readonly bars: readonly number[];
  readonly page: LotProps['page'];
}) {
  const { display } = barMass(useDisplay());
  const { heads, unit, barHead } = lotMessages.weighings;
  const mass = massHead(display);
  return (
    <table className={on('table')}>
      <caption className="unseen">{lotMessages.weighings.title}</caption>
      <thead>
        <tr>
          <Head name={heads.date} />
          <Head name={heads.day} unit={unit.day} n wide />
          {bars.map((bar) => (
            <Head key={bar} name={barHead(bar)} unit={mass} n wide />
          ))}
          <Head name={heads.mean} unit={mass} n />
          <Head name={heads.lost} unit={unit.percent} n />
        </tr>
      </thead>
      <tbody>
        {days.map((day) => {
          const { weighing } = day;
          return (
            <tr key={day.day}>
              <th scope="row">{shortDate(day.wall, { offsetMin: day.offsetMin, locale: display.locale })}</th>
              <td className={on('n wide')}>{row.cut === null ? '' : daysSince(row.cut.wall, day.wall)}</td>
              {bars.map((bar) => (
                <Weight key={bar} weight={day.weights.findLast((one) => one.bar === bar) ?? null} />
              ))}
              {weighing === null ? (
                <Blank className={on('n')} />
              ) : (
                <td className={on('n')}>
                  {figureNumber(massFigure(Math.round(weighing.sum / weighing.bars), display, weighing.step === 0 ? 100 : weighing.step))}
                </td>
              )}
              {weighing === null ? (
                <Blank className={on('n')} />
              ) : (
                <td className={on('n')}>{numberText(100 * (1 - weighing.sum / weighing.first), display.locale, 1)}</td>
              )}
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/** In the instrument's face where one said it; plain where a hand typed it. */
function Weight({ weight }: { readonly weight: BarWeight | null }) {
  const { display } = barMass(useDisplay());
  if (weight === null) return <Blank className={on('n wide')} />;
  const text = figureNumber(massFigure(weight.net, display, weight.scale?.step ?? null));
  return <td className={on('n wide')}>{weight.scale === null ? text : <Measured>{text}</Measured>}</td>;
}

function Typing({ page: { row, state, followed }, again }: LotProps) {
  const [bar, setBar] = useState<string | null>(null);
  const [grams, setGrams] = useState('');
  const wanting = useWant(row, again);
  const { weighings: words } = lotMessages;
  const last = state.weights.findLast(({ struck, for: purpose }) => struck === null && purpose === 'cure');
  const usual = followed[((last?.bar === null || last === undefined ? -1 : followed.indexOf(last.bar)) + 1) % Math.max(1, followed.length)];
  const shown = bar ?? String(usual ?? (last?.bar ?? 0) + 1);
  const [n, g] = [numberIn(shown), numberIn(grams)];
  const ready = n !== null && Number.isInteger(n) && n > 0 && g !== null && g > 0;
  const enter = async (): Promise<void> => {
    if (!ready) return;
    const done = await wanting.want({ kind: 'type-weight', bar: n, for: 'cure', net: Math.round(g * 1000), text: grams.trim(), unit: 'g' });
    if (!done) return;
    setBar(null);
    setGrams('');
  };
  return (
    <>
      <div className={on('form gap')}>
        <TextField id="weight-bar" label={words.bar} value={shown} numeric onChange={setBar} />
        <TextField id="weight-grams" label={words.grams} value={grams} numeric onChange={setGrams} />
        <div className={on('acts whole')}>
          <button type="button" className={on('act')} disabled={!ready || wanting.busy} onClick={() => void enter()}>
            {words.act}
          </button>
          <CrossLast last={last} wanting={wanting} words={words.cross} />
        </div>
      </div>
      {wanting.problem === null ? null : <Problem problem={wanting.problem} />}
    </>
  );
}
