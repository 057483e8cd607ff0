'use client';
import type { ReactNode } from 'react';
import { on } from '../classes';
import { Choice, FieldError, TextField } from '../fields';
import type { Errors, Typed } from './typed';

/** One field of a document, by its path there. */
export type Spec =
  | { readonly kind: 'text' | 'number' | 'lines'; readonly key: string; readonly label: string; readonly hint?: string }
  | { readonly kind: 'choice'; readonly key: string; readonly label: string; readonly options: readonly (readonly [string, string])[] }
  /** Any of a few, all in sight; typed as their keys in order, with commas between. */
  | { readonly kind: 'checks'; readonly key: string; readonly label: string; readonly options: readonly (readonly [string, string])[] }
  /** Several that belong beside each other; `broad`: with room for a long name. */
  | { readonly kind: 'group'; readonly key: string; readonly fields: readonly Spec[]; readonly broad?: boolean }
  /** What follows, named. */
  | { readonly kind: 'heading'; readonly key: string; readonly label: string }
  /** Anything else of the form, in its place. */
  | { readonly kind: 'part'; readonly key: string; readonly part: ReactNode };

interface Props {
  /** Begins the ids of the fields: a page may have several forms. */
  readonly prefix: string;
  readonly specs: readonly Spec[];
  readonly typed: Typed;
  readonly errors: Errors;
  readonly onTyped: (change: Typed) => void;
}

export function Fields({ specs, ...rest }: Props) {
  return specs.map((spec) => <One key={spec.key} spec={spec} {...rest} />);
}

function One({ spec, prefix, typed, errors, onTyped }: Omit<Props, 'specs'> & { readonly spec: Spec }) {
  if (spec.kind === 'heading') return <h3 className={on('minor whole')}>{spec.label}</h3>;
  if (spec.kind === 'part') return <div className={on('whole')}>{spec.part}</div>;
  if (spec.kind === 'group')
    return (
      <div className={on(spec.broad === true ? 'form broad whole' : 'form whole')}>
        <Fields specs={spec.fields} prefix={prefix} typed={typed} errors={errors} onTyped={onTyped} />
      </div>
    );
  const { key, label } = spec;
  const id = `${prefix}-${key.replaceAll('.', '-')}`;
  const field = { id, label, value: typed[key] ?? '', error: errors[key], onChange: (value: string) => onTyped({ [key]: value }) };
  if (spec.kind === 'choice') return <Choice {...field} options={spec.options} />;
  if (spec.kind === 'checks') return <Checks {...field} options={spec.options} />;
  if (spec.kind === 'lines') return <Lines {...field} hint={spec.hint ?? ''} />;
  return <TextField {...field} hint={spec.hint ?? ''} numeric={spec.kind === 'number'} />;
}

interface ChecksProps {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly error: string | undefined;
  readonly options: readonly (readonly [string, string])[];
  readonly onChange: (value: string) => void;
}

function Checks({ id, label, value, error = '', options, onChange }: ChecksProps) {
  const chosen = value.split(',');
  const turn = (key: string): void => onChange(options.flatMap(([one]) => (chosen.includes(one) === (one !== key) ? [one] : [])).join(','));
  return (
    <fieldset className={on('radios whole')} id={id}>
      <legend className={on('label')}>{label}</legend>
      {options.map(([key, words]) => (
        <label key={key}>
          <input type="checkbox" checked={chosen.includes(key)} onChange={() => turn(key)} /> {words}
        </label>
      ))}
      <FieldError id={id} error={error} />
    </fieldset>
  );
}

interface LinesProps {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly error: string | undefined;
  readonly hint: string;
  readonly onChange: (value: string) => void;
}

const ROWS = 4;

/** Several lines of text. */
function Lines({ id, label, value, error = '', hint, onChange }: LinesProps) {
  return (
    <div className={on('whole')}>
      <label className={on('label')} htmlFor={id}>
        {label}
      </label>
      <textarea
        className={on('field')}
        id={id}
        value={value}
        rows={ROWS}
        placeholder={hint}
        spellCheck={false}
        aria-invalid={error !== ''}
        aria-describedby={error === '' ? undefined : `${id}-error`}
        onChange={(event) => onChange(event.target.value)}
      />
      <FieldError id={id} error={error} />
    </div>
  );
}
