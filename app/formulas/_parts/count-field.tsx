'use client';
import { useState } from 'react';
import { numberOf } from '#lib/work/formula/index';
import { FieldError, TextField } from '../../_ui/fields';
import { on } from '../classes';
import { messages } from '../messages-sheet';

/** What a document keeps of it: the number as typed, right or wrong; 0 where there is none. */
const countOf = (text: string): number => {
  const value = numberOf(text);
  return value === null || !Number.isFinite(value) ? 0 : value;
};

const shownOf = (count: number): string => (count === 0 ? '' : String(count));

/** The text of a count while it is typed, and what is wrong with it: what is no number stays in sight. */
const useCount = (count: number, onChange: (count: number) => void) => {
  const [typed, setTyped] = useState<string | null>(null);
  const text = typed !== null && countOf(typed) === count ? typed : shownOf(count);
  return {
    text,
    wrong: text.trim() !== '' && numberOf(text) === null ? messages.noNumber(text) : '',
    type: (next: string): void => {
      setTyped(next);
      onChange(countOf(next));
    },
  };
};

interface Props {
  readonly id: string;
  readonly label: string;
  readonly count: number;
  /** What the plan says of it. */
  readonly error: string;
  readonly onChange: (count: number) => void;
}

/** How many: a whole number, in a form. */
export function CountField({ id, label, count, error, onChange }: Props) {
  const { text, wrong, type } = useCount(count, onChange);
  return <TextField id={id} label={label} value={text} numeric error={wrong === '' ? error : wrong} onChange={type} />;
}

/** The same in a cell of a table, whose head names it. */
export function CountCell({ id, label, count, onChange }: Omit<Props, 'error'>) {
  const { text, wrong, type } = useCount(count, onChange);
  return (
    <>
      <input
        id={id}
        className={on('field')}
        aria-label={label}
        inputMode="numeric"
        value={text}
        aria-invalid={wrong !== ''}
        aria-describedby={wrong === '' ? undefined : `${id}-error`}
        onChange={(event) => type(event.target.value)}
      />
      <FieldError id={id} error={wrong} />
    </>
  );
}
