'use client';
import { useState } from 'react';
import type { WireFault } from '#lib/measure/instrument';
import { FAULT_WORDS } from '#lib/measure/link/words';
import type { RawFrames } from '#lib/protocol/http';
import { numberText } from '#lib/units/format';
import { useDisplay } from '../../_live/use';
import { api } from '../../_ui/api';
import { Problem } from '../../_ui/problem';
import { useAsked } from '../../_ui/use-asked';
import { Head } from '../../_ui/head';
import { messages } from '../messages';
import { Bytes } from './bytes';
import { on } from './classes';

const EVERY_MS = 500;
const SHOWN = 8;

/** The newest frames as they came, as text and as numbers, with what each was read as. */
export function RawBytes({ id }: { readonly id: string }) {
  const { closer } = messages;
  const [still, setStill] = useState(false);
  const { asked } = useAsked(() => api.raw(id), { key: id, everyMs: still ? null : EVERY_MS });
  const frames = asked.state === 'there' && asked.problem === null ? asked.value.frames.slice(0, SHOWN) : [];
  const problem = asked.state === 'asking' ? null : asked.problem;
  return (
    <>
      <h3 className={on('minor gap')}>{closer.raw}</h3>
      <p className={on('dim')}>{closer.rawNote}</p>
      {problem === null ? null : <Problem problem={problem} />}
      {problem === null && asked.state === 'there' && frames.length === 0 ? <p>{closer.rawNone}</p> : null}
      {frames.length === 0 ? null : <Frames frames={frames} />}
      <p>
        <button type="button" className={on('link')} aria-pressed={still} onClick={() => setStill(!still)}>
          {still ? closer.go : closer.hold}
        </button>
      </p>
    </>
  );
}

function Frames({ frames }: RawFrames) {
  const { locale } = useDisplay();
  const { rawHeads } = messages.closer;
  return (
    <table className={on('table')} data-raw="">
      <thead>
        <tr>
          <Head name={rawHeads.age} unit={rawHeads.unit} n wide />
          <Head name={rawHeads.text} />
          <Head name={rawHeads.hex} wide />
          <Head name={rawHeads.took} />
        </tr>
      </thead>
      <tbody>
        {frames.map(({ hex, text, ageMs, took }, index) => (
          // The list is a window that slides: a row is its place.
          // oxlint-disable-next-line react/no-array-index-key
          <tr key={index}>
            <td className={on('n wide')}>{numberText(ageMs, locale)}</td>
            <td>
              <Bytes text={text} />
            </td>
            <td className={on('wide')}>
              <Bytes text={hex} />
            </td>
            <td>{tookWords(took)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const tookWords = (took: string): string =>
  took === 'unread' ? messages.closer.unread : Object.hasOwn(FAULT_WORDS, took) ? FAULT_WORDS[took as WireFault] : took;
