'use client';
import { useState } from 'react';
import { on } from '../../_ui/classes';
import { Choice, TextField } from '../../_ui/fields';
import { Head } from '../../_ui/head';
import { peopleApi } from '../../_ui/people-api';
import { Problem } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { useAsked } from '../../_ui/use-asked';
import { messages } from '../messages';
import { lotMessages } from '../messages-lot';
import { BarMarks } from './bar-marks';
import { numberIn } from './cut-model';
import type { LotProps } from './lot-page';
import { Market } from './market';
import { CrossLast } from './cross-last';
import { useWant } from './use-want';

const COUNTS = ['made', 'shelf', 'away', 'sold', 'given', 'spoiled'] as const;

/** What became of every bar: one tap or a count, and one count after a market. */
export function Counts({ page, again }: LotProps) {
  const { row, state } = page;
  const { counts: words } = lotMessages;
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      <BarMarks left={row.counts.shelf} made={row.counts.made} label={messages.shelf.left(row.counts.shelf, row.counts.made)} />
      <table className={on('table gap')}>
        <caption className="unseen">{words.title}</caption>
        <thead>
          <tr>
            {COUNTS.map((one) => (
              <Head key={one} name={words.heads[one]} n />
            ))}
          </tr>
        </thead>
        <tbody>
          <tr>
            {COUNTS.map((one) => (
              <td key={one} className={on('n')} data-count={one}>
                {state.counts[one]}
              </td>
            ))}
          </tr>
        </tbody>
      </table>
      <Leaving page={page} again={again} />
      <Market page={page} again={again} />
    </PaperSection>
  );
}

type Kind = 'sell' | 'give' | 'spoil';
const KINDS: readonly Kind[] = ['sell', 'give', 'spoil'];

function Leaving({ page: { row, state }, again }: LotProps) {
  const [count, setCount] = useState('1');
  const [to, setTo] = useState('');
  const { asked } = useAsked(peopleApi.list);
  const wanting = useWant(row, again);
  const { counts: words } = lotMessages;
  const bars = numberIn(count);
  const ready = bars !== null && Number.isInteger(bars) && bars > 0;
  const named =
    asked.state === 'there'
      ? asked.value.people.flatMap(({ id, name, role }) => (name === null || role !== 'buyer' ? [] : [[id, name] as const]))
      : [];
  const last = state.moves.findLast(({ struck }) => struck === null);
  const leave = async (kind: Kind): Promise<void> => {
    if (!ready) return;
    const who = kind === 'spoil' || to === '' ? null : to;
    if (await wanting.want({ kind, count: bars, to: who, at: null, from: 'shelf', note: '' })) setCount('1');
  };
  return (
    <>
      <div className={on('form gap')}>
        <TextField id="leave-count" label={words.count} value={count} numeric onChange={setCount} />
        <Choice id="leave-to" label={words.to} value={to} options={[['', words.nobody] as const, ...named]} onChange={setTo} />
        <div className={on('acts whole')}>
          {KINDS.map((kind) => (
            <button
              key={kind}
              type="button"
              className={kind === 'sell' ? on('act first') : on('act')}
              disabled={!ready || wanting.busy}
              onClick={() => void leave(kind)}
            >
              {words[kind]}
            </button>
          ))}
          <CrossLast last={last} wanting={wanting} words={words.cross} />
        </div>
      </div>
      {wanting.problem === null ? null : <Problem problem={wanting.problem} />}
    </>
  );
}
