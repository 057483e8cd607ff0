'use client';
import type { BatchPage } from '#lib/protocol/http';
import type { Display } from '#lib/units/display';
import { messages } from '#lib/words/review/messages';
import { useDisplay } from '../../../_live/use';
import { on } from './classes';

/** Where paper is cut in inches, Letter is what lies in the printer. */
const INCHES = new Set(['US', 'CA', 'MX', 'PH', 'CL', 'CO', 'VE']);

const asShown = ({ mass, temperature, locale }: Display): string => {
  const paper = INCHES.has(locale.split('-')[1] ?? '') ? 'Letter' : 'A4';
  return new URLSearchParams({ paper, mass, temperature, locale }).toString();
};

/** The record as files: for paper, for a spreadsheet, for another program. */
export function Out({ review: { summary } }: { readonly review: BatchPage }) {
  const display = useDisplay();
  const { out } = messages;
  const at = `/api/export/batches/${encodeURIComponent(summary.id)}`;
  return (
    <div className={on('acts')}>
      <a className={on('act')} href={`${at}/record.pdf?${asShown(display)}`} target="_blank" rel="noreferrer">
        {out.pdf}
      </a>
      <a className={on('act')} href={`${at}/weights.csv`} download>
        {out.csv}
      </a>
      <a className={on('act')} href={`${at}/record.json`} download>
        {out.json}
      </a>
    </div>
  );
}
