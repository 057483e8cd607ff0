'use client';
import type { BatchPage } from '#lib/protocol/http';
import { numberText } from '#lib/units/format';
import { useDisplay } from '../../../_live/use';
import { grouped } from '../../../_ui/proof/head';
import { PaperSection } from '../../../_ui/section';
import { messages } from '#lib/words/review/messages';
import { on } from './classes';
import { Out } from './out';

/** Where the batch ends in the journal: what to keep elsewhere if anyone is ever to be convinced. */
export function Record({ review }: { readonly review: BatchPage }) {
  const { record, summary } = review;
  const { locale } = useDisplay();
  const words = messages.record;
  return (
    <PaperSection
      name={words.title}
      note={
        <>
          <p>{words.note}</p>
          <p>{words.honest}</p>
        </>
      }
    >
      <div className={on('record')}>
        <p className={on('hash')} data-hash="">
          {grouped(record.link)}
        </p>
        <p className={on('dim')}>
          {words.head(numberText(record.entries, locale), numberText(record.seq, locale), words.realms[summary.realm])}
        </p>
      </div>
      <Out review={review} />
      <div className={on('printed')}>
        <p>{messages.print.remarks}</p>
        <div className={on('sign')}>
          {messages.print.sign.map((word) => (
            <p key={word}>{word}</p>
          ))}
        </div>
        <p className={on('dim')}>{messages.print.legend}</p>
      </div>
    </PaperSection>
  );
}
