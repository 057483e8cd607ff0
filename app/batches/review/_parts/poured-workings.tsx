'use client';
import type { SuperfatResult } from '#lib/work/batch/poured/result';
import { numberText } from '#lib/units/format';
import { useDisplay } from '../../../_live/use';
import { Head } from '../../../_ui/head';
import { potMessages } from '#lib/words/pot-messages';
import { capital } from '#lib/words/words';
import { pouredWords } from '#lib/words/review/messages-poured';
import type { NameOf } from './who';
import { on } from './classes';

const POINT = 10_000;

/** How the superfat was worked out: the sum, every cause of its width, the worst case, and what would narrow it. */
export function PouredWorkings({ superfat, nameOf }: { readonly superfat: SuperfatResult; readonly nameOf: NameOf }) {
  const { locale } = useDisplay();
  const words = pouredWords.workings;
  const points = (of: number, digits = 1): string => numberText(of / POINT, locale, digits);
  const named = ({ of, name }: { readonly of: string; readonly name: string }): string => (name === of ? nameOf(of) : name);
  return (
    <>
      <h3 className={on('minor gap')}>{words.title}</h3>
      <p className={on('reading')}>
        {words.sum(`${points(superfat.working, 2)} %`, `${points(superfat.value, 2)} %`, points(superfat.u, 2))}{' '}
        {words.worst(points(superfat.worst.low), points(superfat.worst.high))} {words.chance(points(superfat.lyeHeavy))}
      </p>
      <table className={on('table')} data-parts="">
        <thead>
          <tr>
            <Head name={words.heads.cause} />
            <Head name={words.heads.half} n />
            <Head name={words.heads.share} unit={pouredWords.percent} n />
          </tr>
        </thead>
        <tbody>
          {superfat.parts.map((part) => (
            <tr key={`${part.what} ${part.of} ${part.name}`}>
              <th scope="row">{capital(potMessages.parts[part.what](named(part)))}</th>
              <td className={on('n')}>{points(part.half, 2)}</td>
              <td className={on('n')}>{points(part.share)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {superfat.narrowing.length === 0 ? null : (
        <p className={on('reading gap')}>
          <b>{words.narrower}</b>
        </p>
      )}
      {superfat.narrowing.map((step) => (
        <p key={`${step.by} ${step.of} ${step.name}`}>
          {words.step(potMessages.narrowing[step.by](named(step)), points(step.from), points(step.to))}
        </p>
      ))}
    </>
  );
}
