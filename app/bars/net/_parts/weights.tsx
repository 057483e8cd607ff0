'use client';
import { Fragment, useState } from 'react';
import type { BarsPage } from '#lib/protocol/bars';
import type { BarWeight } from '#lib/work/bars/index';
import { standingWeights } from '#lib/work/bars/standing';
import { figureNumber, massFigure } from '#lib/units/format';
import { massHead } from '#lib/words/quantities';
import { useDisplay } from '../../../_live/use';
import { on } from '../../../_ui/classes';
import { TextField } from '../../../_ui/fields';
import { Measured } from '../../../_ui/figures';
import { CrossLast } from '../../_parts/cross-last';
import type { Wanting } from '../../_parts/use-want';
import { messages } from '../messages';
import { figureOf } from './typed';

interface Props {
  readonly state: BarsPage['state'];
  readonly wanting: Wanting;
  /** Bars in the lot. */
  readonly size: number;
}

const MG = 1000;

/** Every weight the check rests on, as its instrument or a hand said it; and one more by hand. */
export function NetWeights({ state, wanting, size }: Props) {
  const [grams, setGrams] = useState('');
  const { weights: words, lot } = messages;
  const all = standingWeights(state, 'net');
  const read = figureOf(grams);
  const sound = read !== null && read > 0;
  const enter = async (): Promise<void> => {
    if (!sound) return;
    const text = grams.trim();
    if (await wanting.want({ kind: 'type-weight', bar: null, for: 'net', net: Math.round(read * MG), text, unit: 'g' })) setGrams('');
  };
  return (
    <>
      {all.length === 0 ? null : <All weights={all} />}
      <div className={on('form gap')}>
        {all.length >= size ? null : (
          <TextField
            id="net-weight"
            label={words.grams}
            numeric
            value={grams}
            error={read !== null && !sound ? lot.wrong.number : ''}
            onChange={setGrams}
            onEnter={() => void enter()}
          />
        )}
        <div className={on('acts')}>
          {all.length >= size ? null : (
            <button type="button" className={on('act')} disabled={!sound || wanting.busy} onClick={() => void enter()}>
              {words.act}
            </button>
          )}
          <CrossLast last={all.at(-1)} wanting={wanting} words={words.cross} />
        </div>
      </div>
    </>
  );
}

function All({ weights }: { readonly weights: readonly BarWeight[] }) {
  const display = useDisplay();
  const byHand = weights.filter(({ scale }) => scale === null).length;
  const { weights: words } = messages;
  return (
    <p>
      {words.all(massHead(display))}{' '}
      {weights.map(({ entry, net, scale }, at) => {
        const text = figureNumber(massFigure(net, display, scale?.step ?? null));
        return (
          <Fragment key={entry}>
            {at > 0 ? ', ' : null}
            {scale === null ? text : <Measured>{text}</Measured>}
          </Fragment>
        );
      })}
      {byHand === 0 ? '.' : words.byHand(byHand, weights.length)}
    </p>
  );
}
