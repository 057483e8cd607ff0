'use client';
import { useState } from 'react';
import type { BarsMoulds } from '#lib/protocol/bars';
import type { HttpProblem } from '#lib/protocol/http';
import { barsApi } from '../../_ui/bars-api';
import { on } from '../../_ui/classes';
import { Problem } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { useAsked } from '../../_ui/use-asked';
import { messages } from '../messages';
import { problemOf } from './say';

interface Props {
  /** Bars that were begun elsewhere are not offered here any more. */
  readonly revision: number;
  readonly onBegun: () => void;
}

/** Moulds of closed batches that no bars were begun from yet. */
export function Waiting({ revision, onBegun }: Props) {
  const { asked, again } = useAsked(barsApi.waiting, { revision });
  const { waiting } = messages;
  if (asked.state !== 'there' || asked.value.batches.length === 0) return null;
  const begun = (): void => {
    again();
    onBegun();
  };
  return (
    <PaperSection name={waiting.title} note={<p>{waiting.note}</p>}>
      {asked.value.batches.map((one) => (
        <Batch key={one.batch.id} waits={one} onBegun={begun} />
      ))}
    </PaperSection>
  );
}

function Batch({ waits: { batch, moulds }, onBegun }: { readonly waits: BarsMoulds; readonly onBegun: () => void }) {
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const { waiting } = messages;
  const begin = async (lots: readonly (readonly number[])[]): Promise<void> => {
    setBusy(true);
    for (const lot of lots) {
      const answer = await barsApi.begin(batch.id, lot);
      const wrong = problemOf(answer);
      setProblem(wrong);
      if (wrong !== null) break;
    }
    setBusy(false);
    onBegun();
  };
  const numbers = moulds.map(({ n }) => n);
  return (
    <div className={on('gap')} data-batch={batch.id}>
      <h3 className={on('minor')}>
        <span className={on('mark')}>{batch.mark}</span> {batch.name}
      </h3>
      <p className={on('dim')}>{moulds.map(({ mark, mould }) => waiting.mould(mark, mould.name)).join('; ')}</p>
      <div className={on('acts')}>
        <button type="button" className={on('act first')} disabled={busy} onClick={() => void begin(numbers.map((n) => [n]))}>
          {waiting.each(numbers.length)}
        </button>
        {numbers.length < 2 ? null : (
          <button type="button" className={on('act')} disabled={busy} onClick={() => void begin([numbers])}>
            {waiting.together(numbers.length)}
          </button>
        )}
      </div>
      {problem === null ? null : <Problem problem={problem} />}
    </div>
  );
}
