import type { HeadPage } from '#lib/protocol/proof';
import { numberText } from '#lib/units/format';
import { shortMoment } from '#lib/words/times';
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
    [words.facts.signed, shortMoment(head.wall, { offsetMin: null, locale })],
    [words.facts.stamped, head.stamp === null ? words.notStamped : words.stampedBy(stampTime(head.stamp.at, locale), head.stamp.url)],
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
              <td>{value}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {/* A drawing of our own server's, not a picture to be optimised. */}
      {/* oxlint-disable-next-line nextjs/no-img-element */}
      <img src={`${code}?line=${head.seq}`} alt={words.code} width={CODE_SIDE} height={CODE_SIDE} />
    </>
  );
}

/** The authority's own clock, as this screen writes times. */
const stampTime = (at: string, locale: string): string => shortMoment(Date.parse(at), { offsetMin: null, locale });
