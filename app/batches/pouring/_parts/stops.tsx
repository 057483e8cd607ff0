'use client';
import type { HistoryPage } from '#lib/protocol/history';
import { numberText } from '#lib/units/format';
import { massCell, massHead, planStep } from '#lib/words/quantities';
import { gainOf } from '#lib/work/history/gain';
import { useDisplay } from '../../../_live/use';
import { on } from '../../../_ui/classes';
import { Head } from '../../../_ui/head';
import { PaperSection } from '../../../_ui/section';
import { messages } from '../messages';

/** What the word “ease off” was worth, for each person. */
export function Stops({ page: { batches, people } }: { readonly page: HistoryPage }) {
  const display = useDisplay();
  const { stops: words } = messages;
  const stops = batches.flatMap((batch) => batch.stops);
  const hands = [...new Set(stops.map(({ hand }) => hand))];
  const unit = massHead(display);
  const mass = (value: number, sign: 'minus' | 'both' = 'minus'): string =>
    massCell(Math.round(value), planStep(100), display, 0, sign).text;
  const percent = (part: number): string => `${numberText(100 * part, display.locale)} %`;
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      {hands.length === 0 ? (
        <p>{words.none}</p>
      ) : (
        <table className={on('table')}>
          <thead>
            <tr>
              <Head name={words.heads.who} />
              <Head name={words.heads.pours} n />
              <Head name={words.heads.came} unit={unit} n wide />
              <Head name={words.heads.off} unit={unit} n />
              <Head name={words.heads.within} n />
              <Head name={words.heads.without} n />
              <Head name={words.heads.gained} unit={unit} n wide />
            </tr>
          </thead>
          <tbody>
            {hands.map((hand) => {
              const gain = gainOf(stops.filter((stop) => stop.hand === hand));
              return gain === null ? null : (
                <tr key={hand}>
                  <th scope="row">{people[hand] ?? words.nobody}</th>
                  <td className={on('n')}>{gain.pours}</td>
                  <td className={on('n wide')}>{mass(gain.came)}</td>
                  <td className={on('n')}>{mass(gain.off)}</td>
                  <td className={on('n')}>{percent(gain.within)}</td>
                  <td className={on('n')}>{percent(gain.withoutWithin)}</td>
                  <td className={on('n wide')}>{mass(gain.gained, 'both')}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
    </PaperSection>
  );
}
