'use client';
import { useState } from 'react';
import { PaperSection } from '../../_ui/section';
import { on } from '../classes';
import { messages } from '../messages-plan';
import { LinesTable } from './lines-table';
import { Ready } from './ready';
import { useSheet } from './use-sheet';

/** What the bench would lead through; from here a batch is made ready. */
export function PlanSection() {
  const { plan } = useSheet();
  const [open, setOpen] = useState(false);
  if (plan === null) return null;
  if (open) return <Ready onLeave={() => setOpen(false)} />;
  return (
    <PaperSection name={messages.title} note={<p>{messages.note}</p>}>
      <LinesTable plan={plan} />
      <div className={on('acts')}>
        <button type="button" className={on('act first')} onClick={() => setOpen(true)}>
          {messages.ready.act}
        </button>
      </div>
    </PaperSection>
  );
}
