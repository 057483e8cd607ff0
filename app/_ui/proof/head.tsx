import type { HeadPage } from '#lib/protocol/proof';
import { Fragment } from 'react';
import { numberText } from '#lib/units/format';
import { clockText, dateText } from '#lib/words/times';
import { useDisplay } from '../../_live/use';
import { on } from '../classes';
import { proofMessages as words } from './messages';

/** Sixteen groups of four, to be compared by eye. */
export const grouped = (hex: string): string => hex.match(/.{1,4}/g)?.join(' ') ?? '';

const CODE_SIDE = 180;

/** A signed head: in words, in full, and as a code to be photographed. */
export function ShownHead({ head, code }: { readonly head: HeadPage; readonly code: string }) {
  const { locale } = useDisplay();
  const rows: readonly (readonly [string, string])[] = [
    [words.facts.words, head.words],
    [words.facts.line, numberText(head.seq, locale)],
    [words.facts.of, head.origin],
    [words.facts.signed, moment(head.wall, locale)],
    [
      words.facts.stamped,
      head.stamp === null ? words.notStamped : words.stampedBy(moment(Date.parse(head.stamp.at), locale), head.stamp.url),
    ],
    [words.facts.link, grouped(head.link)],
  ];
  return (
    <>
      <table className={on('table reading')}>
        <caption className="unseen">{words.caption}</caption>
        <tbody>
          {rows.map(([name, value]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>
                <Breaking text={value} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className={on('gap')}>
        {/* A drawing of our own server's, not a picture to be optimised. */}
        {/* oxlint-disable-next-line nextjs/no-img-element */}
        <img src={`${code}?line=${head.seq}`} alt={words.code} width={CODE_SIDE} height={CODE_SIDE} />
      </p>
    </>
  );
}

const moment = (wall: number, locale: string): string => {
  const zone = { offsetMin: null, locale };
  return `${dateText(wall, zone)}, ${clockText(wall, zone)}`;
};

/** Long names and keys may go on in the next line after a slash or a plus, and are copied as they are. */
export function Breaking({ text }: { readonly text: string }) {
  return text.split(/(?<=[/+])/).map((piece, at) => (
    // oxlint-disable-next-line react/no-array-index-key
    <Fragment key={at}>
      {piece}
      <wbr />
    </Fragment>
  ));
}
