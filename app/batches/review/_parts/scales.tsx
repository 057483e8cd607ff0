'use client';
import type { BatchPage } from '#lib/protocol/http';
import { useDisplay } from '../../../_live/use';
import { Digits, Measured } from '../../../_ui/figures';
import { PaperSection } from '../../../_ui/paper';
import { massCell, massHead, placesOf, stepOf } from '../../../_ui/quantities';
import { clockText } from '../../../_ui/times';
import { capital } from '../../../_ui/words';
import { messages } from '../messages';
import type { NameOf } from './review-page';

/** Every scale of the batch with its newest check by one known mass, or the plain word that there never was one. */
export function Scales({ review, nameOf }: { readonly review: BatchPage; readonly nameOf: NameOf }) {
  const display = useDisplay();
  const { scales } = messages;
  const rows = rowsOf(review);
  const unit = massHead(display);
  const places = placesOf(
    rows.map(({ step }) => step),
    display,
  );
  const zone = { offsetMin: review.story.at(-1)?.offsetMin ?? null, locale: display.locale };
  return (
    <PaperSection name={scales.title} note={<p>{scales.note}</p>}>
      {rows.length === 0 ? (
        <p>{scales.none}</p>
      ) : (
        <table>
          <thead>
            <tr>
              <th scope="col">{scales.heads.scale}</th>
              <th scope="col" className="n">
                {scales.heads.weights}
              </th>
              {(['known', 'shown', 'difference'] as const).map((head) => (
                <th key={head} scope="col" className="n wide">
                  {scales.heads[head]} <i>{unit}</i>
                </th>
              ))}
              <th scope="col">{scales.heads.at}</th>
            </tr>
          </thead>
          <tbody>
            {rows.map(({ instrument, weights, check, step, never }) => (
              <tr key={instrument}>
                <th scope="row">{capital(nameOf(instrument))}</th>
                <td className="n">{weights}</td>
                <td className="n wide">{check === null ? '' : <Digits cell={massCell(check.nominal, step, display, places)} />}</td>
                <td className="n wide">
                  {check === null ? (
                    ''
                  ) : (
                    <Measured>
                      <Digits cell={massCell(check.shown, step, display, places)} />
                    </Measured>
                  )}
                </td>
                <td className="n wide">
                  {check === null ? '' : <Digits cell={massCell(check.difference, step, display, places, 'both')} />}
                </td>
                <td>{check !== null ? clockText(check.wall, zone) : never ? <b>{scales.never}</b> : scales.before}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </PaperSection>
  );
}

const rowsOf = ({ lines, checks, uncheckedScales }: BatchPage) => {
  const taken = lines.flatMap(({ contributions }) => contributions.filter(({ instrument }) => instrument !== null));
  const ids = [
    ...new Set<string>([
      ...taken.flatMap(({ instrument }) => instrument ?? []),
      ...uncheckedScales,
      ...checks.map(({ instrument }) => instrument),
    ]),
  ];
  return ids.map((instrument) => {
    const own = taken.filter((one) => one.instrument === instrument);
    const steps = own.flatMap(({ stated }) => stepOf(stated) ?? []);
    const check = checks.findLast((one) => one.instrument === instrument) ?? null;
    return {
      instrument,
      weights: own.length,
      check,
      step: steps.length === 0 ? null : Math.min(...steps),
      never: check === null && uncheckedScales.some((id) => id === instrument),
    };
  });
};
