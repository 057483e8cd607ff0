'use client';
import type { BatchPage } from '#lib/protocol/http';
import { figureNumber, temperatureFigure } from '#lib/units/format';
import { useDisplay } from '../../../_live/use';
import { Blank, Digits, Measured } from '../../../_ui/figures';
import { PaperSection } from '../../../_ui/paper';
import { massCell, massHead, placesOf } from '../../../_ui/quantities';
import { clockText } from '../../../_ui/times';
import { messages } from '../messages';

/** What was seen after joining, and where the batter went. */
export function After({ review: { trace, parts, story } }: { readonly review: BatchPage }) {
  const display = useDisplay();
  if (trace.length === 0 && parts.length === 0) return null;
  const { after } = messages;
  const zone = { offsetMin: story.at(-1)?.offsetMin ?? null, locale: display.locale };
  const places = placesOf([null], display);
  return (
    <PaperSection name={after.title}>
      <table>
        <thead>
          <tr>
            <th scope="col">{after.heads.what}</th>
            <th scope="col">{after.heads.at}</th>
            <th scope="col" className="n">
              {after.heads.batter} <i>{temperatureFigure(0, display).unit}</i>
            </th>
            <th scope="col" className="n">
              {after.heads.mass} <i>{massHead(display)}</i>
            </th>
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
                <td className="n">
                  <Measured>{figureNumber(temperatureFigure(batter, display))}</Measured>
                </td>
              )}
              <Blank />
            </tr>
          ))}
          {parts.map(({ name, mass }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <Blank />
              <Blank />
              <td className="n">
                <Digits cell={massCell(mass, null, display, places)} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </PaperSection>
  );
}
