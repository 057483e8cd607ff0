'use client';
import { useState } from 'react';
import type { HttpProblem } from '#lib/protocol/http';
import type { UnmouldKept } from '#lib/work/bars/documents';
import { on } from '../../_ui/classes';
import { TextField } from '../../_ui/fields';
import { Problem } from '../../_ui/problem';
import { shelfApi } from '../../_ui/shelf-api';
import { useAsked } from '../../_ui/use-asked';
import { lotMessages } from '../messages-lot';
import { isUnread, numberIn } from './cut-model';

const KEYS = ['from', 'to', 'latestCut'] as const;
type Key = (typeof KEYS)[number];
type Typed = Readonly<Record<Key, string>>;

const text = (hours: number | null | undefined): string => (hours == null ? '' : String(hours));

const typedOf = (kept: UnmouldKept | null): Typed => {
  return { from: text(kept?.from), to: text(kept?.to), latestCut: text(kept?.latestCut) };
};

const hoursIn = (text: string): number | null => {
  const value = numberIn(text);
  return value === null ? null : Math.round(value);
};

/** What this formula asks of its logs: when they come out, and by when they are cut. Behind one more tap: most say nothing. */
export function UnmouldRule({ formula }: { readonly formula: string }) {
  const [open, setOpen] = useState(false);
  const { mould } = lotMessages;
  return (
    <div className={on('gap')}>
      <button type="button" className={on('link')} aria-expanded={open} onClick={() => setOpen(!open)}>
        {mould.rule}
      </button>
      {open ? <Form formula={formula} /> : null}
    </div>
  );
}

function Form({ formula }: { readonly formula: string }) {
  const { asked, again } = useAsked(() => shelfApi.list('unmould'));
  const [typed, setTyped] = useState<Typed | null>(null);
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const { mould } = lotMessages;
  if (asked.state !== 'there') return null;
  const item = asked.value.items.find(({ id }) => id === formula) ?? asked.value.away.find(({ id }) => id === formula) ?? null;
  const shown = typed ?? typedOf(item === null ? null : (item.document as unknown as UnmouldKept));
  const keep = async (): Promise<void> => {
    const document: UnmouldKept = {
      id: formula,
      from: hoursIn(shown.from),
      to: hoursIn(shown.to),
      latestCut: hoursIn(shown.latestCut),
    };
    const answer = await shelfApi.put('unmould', formula, item?.version ?? 0, document);
    setProblem(answer.ok ? null : answer.problem);
    if (answer.ok) setTyped(null);
    again();
  };
  return (
    <div className={on('form gap')}>
      {KEYS.map((key) => (
        <TextField
          key={key}
          id={`unmould-${key}`}
          label={mould.rules[key]}
          value={shown[key]}
          error={isUnread(shown[key]) ? mould.hours : ''}
          numeric
          onChange={(value) => setTyped({ ...shown, [key]: value })}
        />
      ))}
      <div className={on('acts whole')}>
        <button type="button" className={on('act')} disabled={KEYS.some((key) => isUnread(shown[key]))} onClick={() => void keep()}>
          {mould.keep}
        </button>
      </div>
      {problem === null ? null : <Problem problem={problem} />}
    </div>
  );
}
