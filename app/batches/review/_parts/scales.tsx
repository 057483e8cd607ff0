'use client';
import { useId, useState } from 'react';
import type { BatchPage } from '#lib/protocol/http';
import { useDisplay } from '../../../_live/use';
import { Blank, Digits, Measured, Pad, Worked } from '../../../_ui/figures';
import { massCell, massHead, placesOf, showIn, stepOf } from '#lib/words/quantities';
import { clockText } from '#lib/words/times';
import { capital } from '#lib/words/words';
import { PaperSection } from '../../../_ui/section';
import { Head } from '../../../_ui/head';
import { messages } from '#lib/words/review/messages';
import type { NameOf } from './who';
import { on } from './classes';

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
        <table className={on('table')}>
          <thead>
            <tr>
              <Head name={scales.heads.scale} />
              <Head name={scales.heads.weights} n />
              {(['known', 'shown', 'difference'] as const).map((head) => (
                <Head key={head} name={scales.heads[head]} unit={unit} n wide />
              ))}
              <Head name={scales.heads.at} />
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <Row key={row.instrument} row={row} name={nameOf(row.instrument)} places={places} at={(wall) => clockText(wall, zone)} />
            ))}
          </tbody>
        </table>
      )}
    </PaperSection>
  );
}

type ScaleRow = ReturnType<typeof rowsOf>[number];

function Row({
  row: { weights, check, step, never },
  name,
  places,
  at,
}: {
  readonly row: ScaleRow;
  readonly name: string;
  readonly places: number;
  readonly at: (wall: number) => string;
}) {
  const display = useDisplay();
  const [open, setOpen] = useState(false);
  const id = useId();
  const { scales } = messages;
  if (check === null)
    return (
      <tr>
        <th scope="row">{capital(name)}</th>
        <td className={on('n')}>{weights}</td>
        <Blank className={on('wide')} />
        <Blank className={on('wide')} />
        <Blank className={on('wide')} />
        <td>{never ? <b>{scales.never}</b> : scales.before}</td>
      </tr>
    );
  const show = showIn(display);
  const difference = massCell(check.difference, step, display, places, 'both');
  return (
    <>
      <tr>
        <th scope="row">{capital(name)}</th>
        <td className={on('n')}>{weights}</td>
        <td className={on('n wide')}>
          <Digits cell={massCell(check.nominal, step, display, places)} />
        </td>
        <td className={on('n wide')}>
          <Measured>
            <Digits cell={massCell(check.shown, step, display, places)} />
          </Measured>
        </td>
        <td className={on('n wide')}>
          <Worked open={open} onOpen={() => setOpen(!open)} controls={id} label={`${difference.text}. ${scales.openRow(name)}`}>
            {difference.text}
          </Worked>
          <Pad cell={difference} />
        </td>
        <td>{at(check.wall)}</td>
      </tr>
      {open ? (
        <tr className={on('slip')} id={id}>
          <td colSpan={6}>
            {scales.workings(show.mass(check.shown, step), show.mass(check.nominal, step), show.mass(check.difference, step, 'both'))}
          </td>
        </tr>
      ) : null}
    </>
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
