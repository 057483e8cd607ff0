'use client';
import type { BatchPage } from '#lib/protocol/http';
import { figureNumber, temperatureFigure } from '#lib/units/format';
import { useDisplay } from '../../../_live/use';
import { Blank, Digits, Measured } from '../../../_ui/figures';
import { massCell, massHead, placesOf } from '#lib/words/quantities';
import type { Cell } from '#lib/words/quantities';
import { clockText } from '#lib/words/times';
import { PaperSection } from '../../../_ui/section';
import { Head } from '../../../_ui/head';
import { messages } from '#lib/words/review/messages';
import { on } from './classes';

/** What was seen after joining, and where the batter went. */
export function After({ review: { trace, parts, story } }: { readonly review: BatchPage }) {
  const display = useDisplay();
  if (trace.length === 0 && parts.length === 0) return null;
  const { after } = messages;
  const zone = { offsetMin: story.at(-1)?.offsetMin ?? null, locale: display.locale };
  const places = placesOf([null], display);
  return (
    <PaperSection name={after.title}>
      <table className={on('table reading')}>
        <thead>
          <tr>
            <Head name={after.heads.what} />
            <Head name={after.heads.at} />
            <Head name={after.heads.batter} unit={temperatureFigure(0, display).unit} n />
            <Head name={after.heads.mass} unit={massHead(display)} n />
          </tr>
        </thead>
        <tbody>
          {trace.map(({ mark, batter, wall }) => (
            <tr key={wall}>
              <th scope="row">{after.trace[mark]}</th>
              <td>{clockText(wall, zone)}</td>
              {batter === null ? (
                <Blank />
              ) : (
                <td className={on('n')}>
                  <Measured>{figureNumber(temperatureFigure(batter, display))}</Measured>
                </td>
              )}
              <Blank />
            </tr>
          ))}
          {parts.map(({ name, mass, byHand }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <Blank />
              <Blank />
              <td className={on('n')}>
                <Mass cell={massCell(mass, null, display, places)} byHand={byHand} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </PaperSection>
  );
}

function Mass({ cell, byHand }: { readonly cell: Cell; readonly byHand: boolean }) {
  if (byHand) return <Digits cell={cell} />;
  return (
    <Measured>
      <Digits cell={cell} />
    </Measured>
  );
}
