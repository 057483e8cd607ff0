'use client';
import Link from 'next/link';
import { barsApi } from '../bars-api';
import { on } from '../classes';
import { PaperSection } from '../section';
import { useAsked } from '../use-asked';
import { dueMessages } from './due-messages';

const { poured } = dueMessages;

/** Batches whose moulds no bars were begun from: until then no window, no calendar and no order knows of them. */
export function Poured({ revision }: { readonly revision: string }) {
  const { asked } = useAsked(barsApi.waiting, { revision });
  if (asked.state !== 'there' || asked.value.batches.length === 0) return null;
  return (
    <PaperSection name={poured.title}>
      <p className={on('reading')}>{poured.said(asked.value.batches.map(({ batch: { mark, name } }) => poured.batch(mark, name)))}</p>
      <p>
        <Link href="/bars" prefetch={false}>
          {poured.act}
        </Link>
      </p>
    </PaperSection>
  );
}
