'use client';
import type { Route } from 'next';
import Link from 'next/link';
import type { ReactNode } from 'react';
import { massText } from '#lib/units/format';
import type { FollowBars, FollowedBack } from '#lib/protocol/lots';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import { Measured } from '../../_ui/figures';
import { Head } from '../../_ui/head';
import { PaperSection } from '../../_ui/section';
import { followMessages } from '../messages-follow';
import { FollowTable } from './follow-table';
import { wrapName, wrapQuery } from './wrap-lot';

const { back: words } = followMessages;

/** In the voice of its source. */
function Weight({ text, byHand }: { readonly text: string; readonly byHand: boolean }) {
  return byHand ? text : <Measured>{text}</Measured>;
}

/** From a mark back, for every batch that bears it. */
export function BackSections({ found: { mark, isUnknown, batches } }: { readonly found: FollowBars }) {
  return (
    <>
      {batches.map((one, at) => (
        <Back key={one.followed.batch.id} mark={isUnknown ? one.followed.batch.mark : mark} found={one}>
          {at === 0 && batches.length > 1 ? <p className={on('warn')}>{words.twice(mark, batches.length)}</p> : null}
          {at === 0 && isUnknown ? <p className={on('warn')}>{words.unknown(mark)}</p> : null}
        </Back>
      ))}
    </>
  );
}

interface BackProps {
  readonly mark: string;
  readonly found: FollowedBack;
  readonly children: ReactNode;
}

/** One batch: its bars, the lots in it, every weight. `children`: what is to be known before it is read. */
function Back({ mark, found, children }: BackProps) {
  const display = useDisplay();
  const { heads, weightHeads } = words;
  const { batch } = found.followed;
  const shown = (mass: number): string => massText(mass, display, null);
  return (
    <>
      <PaperSection name={mark} note={<p>{words.note}</p>}>
        {children}
        <p className={on('reading')}>{words.of(mark, batch.name)}</p>
        <FollowTable batches={[found.followed]} masses={false} />
        {found.followed.bars.flatMap(({ mark: of, wraps }) =>
          wraps.map((one) => (
            <p key={`${of} ${wrapQuery(one)}`} className={on('gap')}>
              <Link href={`/stores/follow?${wrapQuery(one)}` as Route} prefetch={false}>
                {`${of}: ${followMessages.around(wrapName(one), one.pieces)}`}
              </Link>
            </p>
          )),
        )}
      </PaperSection>
      <PaperSection name={words.title}>
        <table className={on('table')}>
          <caption className="unseen">{words.caption}</caption>
          <thead>
            <tr>
              <Head name={heads.lot} />
              <Head name={heads.material} />
              <Head name={heads.mass} n />
              <Head name={heads.supplier} wide />
              <Head name={heads.until} wide />
            </tr>
          </thead>
          <tbody>
            {found.lots.map(({ lot, mark, material, mass, supplier, bestBefore, byHand }) => (
              <tr key={lot}>
                <th scope="row">
                  <Link href={`/stores/follow?lot=${encodeURIComponent(lot)}` as Route} prefetch={false}>
                    {mark}
                  </Link>
                </th>
                <td>{material}</td>
                <td className={on('n')}>
                  <Weight text={shown(mass)} byHand={byHand} />
                </td>
                <td className={on('wide')}>{supplier ?? ''}</td>
                <td className={on('wide')}>{bestBefore ?? ''}</td>
              </tr>
            ))}
          </tbody>
        </table>
        {found.unstated.map(({ material, mass }) => (
          <p key={`${material} ${mass}`} className={on('warn')}>
            {words.unstated(material, shown(mass))}
          </p>
        ))}
      </PaperSection>
      <PaperSection name={words.weights}>
        <table className={on('table')}>
          <thead>
            <tr>
              <Head name={weightHeads.material} />
              <Head name={weightHeads.actual} n />
              <Head name={weightHeads.lots} />
            </tr>
          </thead>
          <tbody>
            {found.weights.map(({ material, actual, lots, byHand }) => (
              <tr key={material}>
                <th scope="row">{material}</th>
                <td className={on('n')}>
                  <Weight text={shown(actual)} byHand={byHand} />
                </td>
                <td>{lots}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </PaperSection>
    </>
  );
}
