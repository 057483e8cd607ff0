'use client';
import { useState } from 'react';
import { numberText } from '#lib/units/format';
import type { TrimHow } from '#lib/work/bars/index';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import { Choice, TextField } from '../../_ui/fields';
import { Problem } from '../../_ui/problem';
import { lotMessages } from '../messages-lot';
import { CrossLast } from './cross-last';
import { numberIn } from './cut-model';
import type { LotProps } from './lot-props';
import { useWant } from './use-want';

const HOWS = Object.entries(lotMessages.trim.hows) as readonly (readonly [TrimHow, string])[];

/** What planing, bevelling or stamping took off some bars weighed together. */
export function Trims({ page: { row, state }, again }: LotProps) {
  const { locale } = useDisplay();
  const [how, setHow] = useState<TrimHow>('planed');
  const [typed, setTyped] = useState({ bars: '10', before: '', after: '' });
  const wanting = useWant(row, again);
  const { trim } = lotMessages;
  const [bars, before, after] = [numberIn(typed.bars), numberIn(typed.before), numberIn(typed.after)];
  const ready = bars !== null && Number.isInteger(bars) && before !== null && after !== null && after > 0 && before >= after;
  const enter = async (): Promise<void> => {
    if (!ready) return;
    const done = await wanting.want({ kind: 'trim', how, bars, before: Math.round(before * 1000), after: Math.round(after * 1000) });
    if (done) setTyped({ bars: '10', before: '', after: '' });
  };
  const field = (key: keyof typeof typed, label: string) => (
    <TextField id={`trim-${key}`} label={label} value={typed[key]} numeric onChange={(value) => setTyped({ ...typed, [key]: value })} />
  );
  return (
    <>
      <h3 className={on('minor gap')}>{trim.title}</h3>
      <p className={on('dim')}>{trim.note}</p>
      {state.trims.map((one) => {
        const said = trim.said(trim.hows[one.how], one.bars, numberText((one.before - one.after) / one.bars / 1000, locale, 1));
        return <p key={one.entry}>{one.struck === null ? said : <s>{said}</s>}</p>;
      })}
      <div className={on('form gap')}>
        <Choice id="trim-how" label={trim.how} value={how} options={HOWS} onChange={setHow} />
        {field('bars', trim.bars)}
        {field('before', trim.before)}
        {field('after', trim.after)}
        <div className={on('acts whole')}>
          <button type="button" className={on('act')} disabled={!ready || wanting.busy} onClick={() => void enter()}>
            {trim.act}
          </button>
          <CrossLast last={state.trims.findLast(({ struck }) => struck === null)} wanting={wanting} words={trim.cross} />
        </div>
      </div>
      {wanting.problem === null ? null : <Problem problem={wanting.problem} />}
    </>
  );
}
