'use client';
import { useState } from 'react';
import type { BatchPage } from '#lib/protocol/http';
import { massText, temperatureText } from '#lib/units/format';
import type { Display } from '#lib/units/display';
import { planStep } from '#lib/words/quantities';
import { correctedWords } from '#lib/words/review/corrected';
import { shortMoment } from '#lib/words/times';
import type { ReviewAmendment } from '#lib/work/batch/review';
import { useDisplay } from '../../../_live/use';
import { afterwardsApi } from '../../../_ui/afterwards-api';
import { Head } from '../../../_ui/head';
import { PaperSection } from '../../../_ui/section';
import { afterwardsMessages as words } from '../messages-afterwards';
import { NoteForm } from './note-form';
import { PictureForm } from './picture-form';
import { PutRightForm } from './put-right-form';
import { namedOf } from './who';
import { on } from './classes';

type Open = 'note' | 'picture' | 'put-right' | null;
const ACTS = [
  ['note', words.noteAdd],
  ['picture', words.pictureAdd],
  ['put-right', words.putRight],
] as const;

/** Notes, pictures, and what was put right, at any time. */
export function Afterwards({ review, onSaid }: { readonly review: BatchPage; readonly onSaid: () => void }) {
  const [open, setOpen] = useState<Open>(null);
  const { amendments, pictures, summary } = review;
  const ended = summary.status === 'closed' || summary.status === 'abandoned';
  const done = (): void => {
    setOpen(null);
    onSaid();
  };
  const leave = (): void => setOpen(null);
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      {amendments.length === 0 && pictures.length === 0 ? <p className={on('reading')}>{words.nothing}</p> : null}
      {amendments.length === 0 ? null : <Amendments review={review} />}
      <Corrected review={review} />
      {pictures.map(({ sha256, caption, of }) => (
        <figure key={sha256}>
          {/* A picture of our own server's, made small when it was kept. */}
          {/* oxlint-disable-next-line nextjs/no-img-element */}
          <img src={afterwardsApi.photoAddress(sha256)} alt={caption === '' ? of : caption} width={320} loading="lazy" />
          <figcaption className={on('dim')}>{caption}</figcaption>
        </figure>
      ))}
      {open === 'note' ? <NoteForm batch={summary.id} onDone={done} onLeave={leave} /> : null}
      {open === 'picture' ? <PictureForm batch={summary.id} onDone={done} onLeave={leave} /> : null}
      {open === 'put-right' ? <PutRightForm review={review} onDone={done} onLeave={leave} /> : null}
      {open === null ? (
        <div className={on('acts')}>
          {ACTS.filter(([act]) => act !== 'put-right' || ended).map(([act, name]) => (
            <button key={act} type="button" className={on('act')} onClick={() => setOpen(act)}>
              {name}
            </button>
          ))}
        </div>
      ) : null}
    </PaperSection>
  );
}

/** What the batch comes to with what was put right, where that can be worked out. */
function Corrected({ review: { poured } }: { readonly review: BatchPage }) {
  const said = correctedWords(poured, useDisplay());
  if (said === null) return null;
  return (
    <>
      <p className={on('reading')}>{said.now}</p>
      {said.heavy === null ? null : <p className={on('warn')}>{said.heavy}</p>}
    </>
  );
}

const value = ({ what }: ReviewAmendment, text: string, display: Display): string => {
  if (text === '') return words.unknown;
  if (what === 'weight') return massText(Number(text), display, planStep(Number(text)));
  return what === 'temperature' ? temperatureText(Number(text), display) : text;
};

function Amendments({ review }: { readonly review: BatchPage }) {
  const display = useDisplay();
  const materials = new Map(review.lines.map(({ line, material }) => [line as string, material]));
  const { heads } = words;
  const what = (one: ReviewAmendment): string => {
    const of = one.line === null ? (words.pour[one.of] ?? one.of) : (materials.get(one.line) ?? one.line);
    return one.what === 'other' || one.what === 'temperature' ? of : `${of}, ${words.whats[one.what]}`;
  };
  return (
    <table className={on('table')}>
      <caption className="unseen">{words.caption}</caption>
      <thead>
        <tr>
          <Head name={heads.what} />
          <Head name={heads.was} />
          <Head name={heads.is} />
          <Head name={heads.why} />
          <Head name={heads.who} wide />
        </tr>
      </thead>
      <tbody>
        {review.amendments.map((one) => (
          <tr key={`${one.wall} ${one.entry ?? one.of} ${one.is}`} data-amended={one.what}>
            <th scope="row">{what(one)}</th>
            <td>
              <s>{value(one, one.was, display)}</s>
            </td>
            <td>{value(one, one.is, display)}</td>
            <td>{one.why}</td>
            <td className={on('wide')}>
              {namedOf(review, one.by) ?? words.maker}, {shortMoment(one.wall, { offsetMin: one.offsetMin, locale: display.locale })}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
