import type { ReactNode } from 'react';
import { on } from './classes';

interface Common {
  readonly id: string;
  readonly label: string;
}

/** A labelled line of text; what is wrong with it stands below and is read with it. */
export function TextField({
  id,
  label,
  value,
  error = '',
  hint = '',
  numeric = false,
  onChange,
  onEnter,
}: Common & {
  readonly value: string;
  readonly error?: string | undefined;
  readonly hint?: string;
  readonly numeric?: boolean;
  readonly onChange: (value: string) => void;
  /** What Enter does here instead of keeping the form: a reader of barcodes ends with it. */
  readonly onEnter?: () => void;
}) {
  const wrong = error !== '';
  return (
    <div>
      <label className={on('label')} htmlFor={id}>
        {label}
      </label>
      <input
        className={on('field')}
        id={id}
        value={value}
        placeholder={hint}
        inputMode={numeric ? 'decimal' : undefined}
        autoComplete="off"
        spellCheck={false}
        aria-invalid={wrong}
        aria-describedby={wrong ? `${id}-error` : undefined}
        onChange={(event) => onChange(event.target.value)}
        onKeyDown={(event) => {
          if (onEnter === undefined || event.key !== 'Enter') return;
          event.preventDefault();
          onEnter();
        }}
      />
      <FieldError id={id} error={error} />
    </div>
  );
}

export function Choice<T extends string>({
  id,
  label,
  value,
  options,
  error = '',
  onChange,
}: Common & {
  readonly value: T;
  readonly options: readonly (readonly [T, string])[];
  readonly error?: string | undefined;
  readonly onChange: (value: T) => void;
}) {
  return (
    <div>
      <label className={on('label')} htmlFor={id}>
        {label}
      </label>
      <select
        className={on('field')}
        id={id}
        value={value}
        aria-invalid={error !== ''}
        aria-describedby={error === '' ? undefined : `${id}-error`}
        onChange={(event) => onChange(options.find(([one]) => one === event.target.value)?.[0] ?? value)}
      >
        {options.map(([one, name]) => (
          <option key={one} value={one}>
            {name}
          </option>
        ))}
      </select>
      <FieldError id={id} error={error} />
    </div>
  );
}

/** What is wrong with a field, below it and read with it. */
export function FieldError({ id, error }: { readonly id: string; readonly error: string }) {
  return error === '' ? null : (
    <p id={`${id}-error`} className={on('warn')}>
      {error}
    </p>
  );
}

/** One of a few, all of them in sight. */
export function Radios<T extends string>({
  name,
  legend,
  value,
  options,
  onChange,
}: {
  readonly name: string;
  readonly legend: string;
  readonly value: T;
  readonly options: readonly (readonly [T, ReactNode])[];
  readonly onChange: (value: T) => void;
}) {
  return (
    <fieldset className={on('radios')}>
      <legend className={on('label')}>{legend}</legend>
      {options.map(([one, words]) => (
        <label key={one}>
          <input type="radio" name={name} value={one} checked={one === value} onChange={() => onChange(one)} />
          {words}
        </label>
      ))}
    </fieldset>
  );
}
