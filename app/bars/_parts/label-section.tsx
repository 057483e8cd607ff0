'use client';
import type { Route } from 'next';
import Link from 'next/link';
import { useState } from 'react';
import { LAST_DAY, weightOn } from '#lib/soap/shrink/index';
import { numberText } from '#lib/units/format';
import { sinceCut } from '#lib/work/bars/cure';
import type { Unfollowed } from '#lib/work/bars/cure';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import type { Cure } from '../../_ui/cure/use-cure';
import { TextField } from '../../_ui/fields';
import { labelApi } from '../../_ui/label-api';
import { Problem } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { messages as labelWords } from '../label/messages';
import { lotMessages } from '../messages-lot';
import { numberIn } from './cut-model';
import type { LotProps } from './lot-props';
import { useWant } from './use-want';

/** The lightest that a followed bar is forecast to become, grams; `null`: nothing is forecast. */
const lowestOf = (cure: Cure | Unfollowed): number | null => {
  if (typeof cure === 'string' || cure.forecast == null) return null;
  return weightOn(cure.forecast, LAST_DAY, sinceCut(cure.followed, cure.forecast).cutWeight).low;
};

/** The weight the label states, held against the lowest forecast, and the label as it is drawn. */
export function LabelSection({ page: { row }, cure, again }: LotProps & { readonly cure: Cure | Unfollowed }) {
  const { locale } = useDisplay();
  const [typed, setTyped] = useState<string | null>(null);
  const wanting = useWant(row, again);
  const { label } = lotMessages;
  const shown = typed ?? (row.label === null ? '' : String(row.label / 1000));
  const grams = numberIn(shown);
  const lowest = lowestOf(cure);
  const over = lowest !== null && grams !== null && grams > lowest;
  const keep = async (): Promise<void> => {
    if (grams === null || grams <= 0) return;
    if (await wanting.want({ kind: 'label', net: Math.round(grams * 1000) })) setTyped(null);
  };
  return (
    <PaperSection name={label.title} note={<p>{label.note}</p>}>
      <div className={on('form')}>
        <TextField id="label-net" label={label.net} value={shown} numeric onChange={setTyped} />
        <div className={on('acts')}>
          <button type="button" className={on('act')} disabled={grams === null || grams <= 0 || wanting.busy} onClick={() => void keep()}>
            {label.act}
          </button>
        </div>
      </div>
      {lowest === null ? null : (
        <p className={on(over ? 'warn gap' : 'dim gap')}>
          {over ? label.over(numberText(lowest, locale, 1)) : label.carries(numberText(Math.floor(lowest), locale))}
        </p>
      )}
      <p className={on('gap')}>
        {/* A picture of ours that the machine beside us draws: there is nothing to optimise. */}
        {/* oxlint-disable-next-line nextjs/no-img-element */}
        <img src={labelApi.svg(row.id, String(row.version))} alt={label.alt(row.mark)} width="100%" loading="lazy" />
      </p>
      <div className={on('acts')}>
        <Link className={on('act')} href={`/bars/label?id=${encodeURIComponent(row.id)}` as Route} prefetch={false}>
          {labelWords.open}
        </Link>
        <Link className={on('act')} href={`/bars/net?id=${encodeURIComponent(row.id)}` as Route} prefetch={false}>
          {labelWords.net}
        </Link>
        <a className={on('act')} href={labelApi.pdf(row.id, null)}>
          {label.pdf}
        </a>
        <a className={on('act')} href={labelApi.pdf(row.id, 'a4')}>
          {label.sheet}
        </a>
      </div>
      {wanting.problem === null ? null : <Problem problem={wanting.problem} />}
    </PaperSection>
  );
}
