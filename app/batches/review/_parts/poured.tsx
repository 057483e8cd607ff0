'use client';
import { useId, useState } from 'react';
import type { BatchPage } from '#lib/protocol/http';
import { numberText } from '#lib/units/format';
import { useDisplay } from '../../../_live/use';
import { Worked } from '../../../_ui/figures';
import { Head } from '../../../_ui/head';
import { potMessages } from '#lib/words/pot-messages';
import { PaperSection } from '../../../_ui/section';
import { capital } from '#lib/words/words';
import { pouredWords } from '#lib/words/review/messages-poured';
import { pouredRows, type Figures, type PouredRow } from '#lib/words/review/poured-rows';
import { PouredWorkings } from './poured-workings';
import type { NameOf } from './who';
import { on } from './classes';

/** What the batch came to, with what each figure may be off by and the formula's limits beside it. */
export function Poured({ review, nameOf }: { readonly review: BatchPage; readonly nameOf: NameOf }) {
  const { poured } = review;
  return (
    <PaperSection name={pouredWords.title} note={<p>{pouredWords.note}</p>}>
      {poured.kind === 'figures' ? (
        <Results poured={poured} review={review} nameOf={nameOf} />
      ) : (
        <p>{`${capital(potMessages.unworked[poured.kind])}.`}</p>
      )}
    </PaperSection>
  );
}

function Results({ poured, review, nameOf }: { readonly poured: Figures; readonly review: BatchPage; readonly nameOf: NameOf }) {
  const [open, setOpen] = useState(false);
  const id = useId();
  const { result, kept, toCome } = poured;
  const { heads } = pouredWords;
  const names = toCome.map((line) => review.lines.find((one) => one.line === line)?.material.toLowerCase() ?? line);
  return (
    <>
      <p className={on('reading')}>
        {kept ? pouredWords.kept(result.method) : names.length === 0 ? pouredWords.now : pouredWords.soFar(names.join(', '))}
      </p>
      <table className={on('table gap')} data-poured="">
        <thead>
          <tr>
            <Head name={heads.what} />
            <Head name={heads.value} n />
            <Head name={heads.half} n />
            <Head name={heads.from} n wide />
            <Head name={heads.to} n wide />
            <Head name={heads.limits} wide />
            <Head name={heads.said} unseen />
          </tr>
        </thead>
        <tbody>
          {pouredRows(result, review.lines).map((row) => (
            <Row key={row.key} row={row} id={id} open={open} onOpen={row.key === 'superfat' ? () => setOpen(!open) : null} />
          ))}
        </tbody>
      </table>
      {result.unlimited.length === 0 ? null : <p className={on('reading gap')}>{pouredWords.unlimited(result.unlimited.join(', '))}</p>}
      {open && result.superfat !== null ? (
        <div id={id}>
          <PouredWorkings superfat={result.superfat} nameOf={nameOf} />
        </div>
      ) : null}
    </>
  );
}

function Row({
  row: { name, unit, digits, per, value, figure, limit },
  id,
  open,
  onOpen,
}: {
  readonly row: PouredRow;
  readonly id: string;
  readonly open: boolean;
  readonly onOpen: (() => void) | null;
}) {
  const { locale } = useDisplay();
  const show = (of: number): string => numberText(of / per, locale, digits);
  const shown = `${show(value)} ${unit}`;
  return (
    <tr>
      <th scope="row">{name}</th>
      <td className={on('n')}>
        {onOpen === null ? (
          shown
        ) : (
          <Worked open={open} onOpen={onOpen} controls={id} label={`${shown}. ${pouredWords.workings.label}`}>
            {shown}
          </Worked>
        )}
      </td>
      <td className={on('n')}>{show((figure.high - figure.low) / 2)}</td>
      <td className={on('n wide')}>{show(figure.low)}</td>
      <td className={on('n wide')}>{show(figure.high)}</td>
      <td className={on('wide')}>{limit === null ? '' : pouredWords.bandOf(limit.low, limit.high, show)}</td>
      <td>{limit === null ? '' : pouredWords.verdict[limit.verdict]}</td>
    </tr>
  );
}
