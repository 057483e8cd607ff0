'use client';
import { useId, useState } from 'react';
import type { BatchPage } from '#lib/protocol/http';
import { massText, numberText } from '#lib/units/format';
import type { MouldMade } from '#lib/work/batch/moulds';
import { massCell, massHead, placesOf } from '#lib/words/quantities';
import { patternText, photoSubjects } from '#lib/words/review/messages-story';
import { useDisplay } from '../../../_live/use';
import { Blank, Digits, Measured, Worked } from '../../../_ui/figures';
import { Head } from '../../../_ui/head';
import { PaperSection } from '../../../_ui/section';
import { messages as words } from '../messages-moulds';
import { on } from './classes';
import { MouldContents } from './mould-contents';
import { MouldLevel } from './mould-level';

const COLUMNS = 6;

/** Each mould as it was poured: how full, from which jugs, and what is in it, lot by lot; what stayed behind, and pictures asked for. */
export function Moulds({ review }: { readonly review: BatchPage }) {
  const display = useDisplay();
  const { moulds, left, photos } = review;
  if (moulds.length === 0) return null;
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      <table className={on('table')}>
        <thead>
          <tr>
            <Head name={words.heads.mould} />
            <Head name={words.heads.pattern} wide />
            <Head name={words.heads.from} wide />
            <Head name={words.heads.mass} unit={massHead(display)} n />
            <Head name={words.heads.full} n />
            <Head name={words.heads.in} />
          </tr>
        </thead>
        <tbody>
          {moulds.map((mould) => (
            <Row key={mould.n} mould={mould} full={fullOf(mould, review)} />
          ))}
        </tbody>
      </table>
      {left.length === 0 ? null : <p>{words.left(left.map(({ of, mass }) => `${of} ${massText(mass, display)}`).join(', '))}</p>}
      {photos.length === 0 ? null : <p>{words.photos(photos.map(({ of, mark }) => words.photo(mark, photoSubjects[of])).join(', '))}</p>}
    </PaperSection>
  );
}

/** By the density the plan computed for its batter; `null` where it computed none, or nobody knows what the mould holds. */
const fullOf = ({ mass, brimMl }: MouldMade, { sizing }: BatchPage): number | null => {
  const density = sizing === null ? null : Number(sizing.grams) / Number(sizing.volume);
  return mass === null || brimMl === null || density === null || !(density > 0) ? null : mass / 1000 / density / brimMl;
};

function Row({ mould, full }: { readonly mould: MouldMade; readonly full: number | null }) {
  const display = useDisplay();
  const [open, setOpen] = useState(false);
  const id = useId();
  const { mark, name, pattern, mass, byHand, parts, shares } = mould;
  const percent = full === null ? '' : numberText(100 * full, display.locale, 0);
  const patternSaid = pattern === null ? words.unnamed : patternText(pattern);
  const cell = mass === null ? null : massCell(mass, null, display, placesOf([null], display));
  return (
    <>
      <tr data-mould={mark}>
        <th scope="row">
          <span className={on('none nw')}>{mark}</span> {name}
          <small className={on('narrow')}>{patternSaid}</small>
        </th>
        <td className={on('wide')}>{patternSaid}</td>
        <td className={on('wide')}>{parts.map((part) => part.name).join(', ')}</td>
        {cell === null ? (
          <td>{words.unweighed}</td>
        ) : (
          <td className={on('n')}>
            {byHand ? (
              <Digits cell={cell} />
            ) : (
              <Measured>
                <Digits cell={cell} />
              </Measured>
            )}
          </td>
        )}
        {full === null ? (
          <Blank />
        ) : (
          <td className={on('n')}>
            {words.full(percent)} <MouldLevel full={full} label={words.drawn(mark, percent)} />
          </td>
        )}
        <td className={on('nw')}>
          <Worked open={open} onOpen={() => setOpen(!open)} controls={id} label={`${words.heads.in}. ${words.open(mark)}`}>
            {words.heads.in}
          </Worked>
        </td>
      </tr>
      {open ? (
        <tr className={on('slip')} id={id}>
          <td colSpan={COLUMNS}>
            {mass !== null && shares === 'unknown' ? <p>{words.unknown}</p> : null}
            <MouldContents mould={mould} />
          </td>
        </tr>
      ) : null}
    </>
  );
}
