'use client';
import type { ReactNode, SyntheticEvent } from 'react';
import { on } from '../classes';
import { Problem } from '../problem';
import { Fields } from './fields';
import type { Draft, Kind, Reading } from './kind';
import { WHY } from './kind';
import { keptMessages } from './messages';
import type { Errors, Typed } from './typed';
import { at } from './typed';
import type { Keeping } from './use-keeping';

interface Props<D> {
  readonly kind: Pick<Kind<D>, 'noun' | 'specs'>;
  readonly draft: Draft;
  readonly reading: Reading;
  readonly keeping: Keeping;
  readonly onTyped: (change: Typed) => void;
  readonly onKeep: () => void;
  /** What else can be done with it. */
  readonly children?: ReactNode;
}

/** The fields of one document with what is wrong beside each. An empty field is spoken of once keeping was tried. */
export function DocumentForm<D>({ kind, draft, reading, keeping, onTyped, onKeep, children }: Props<D>) {
  const { typed, tried, base } = draft;
  const specs = kind.specs(typed, onTyped);
  const why = base === 0 ? [] : [{ kind: 'text', key: WHY, label: keptMessages.why, hint: keptMessages.optional } as const];
  const server = tried ? keeping.fields : {};
  const all = { ...reading.minds, ...closest(server, typed), ...reading.errors };
  const shown = Object.fromEntries(Object.entries(all).filter(([key]) => tried || at(typed, key) !== ''));
  const wrong = Object.keys(reading.errors).length;
  const submit = (event: SyntheticEvent): void => {
    event.preventDefault();
    onKeep();
  };
  return (
    <form className={on('form')} onSubmit={submit} noValidate>
      <Fields prefix={kind.noun} specs={[...specs, ...why]} typed={typed} errors={shown} onTyped={onTyped} />
      <div className={on('acts whole')}>
        <button type="submit" className={on('act first')} disabled={keeping.waits}>
          {keeping.waits ? keptMessages.keeping : base === 0 ? keptMessages.keep : keptMessages.keepChange}
        </button>
        {children}
      </div>
      {tried && wrong > 0 ? (
        <p role="alert" className={on('warn whole')}>
          {keptMessages.summary(wrong)}
        </p>
      ) : null}
      {keeping.problem === null ? null : (
        <div className={on('whole')}>
          <Problem problem={keeping.problem} />
        </div>
      )}
    </form>
  );
}

/** The server names "certificate.sv.value" where the form has "certificate.sv". */
const closest = (errors: Errors, typed: Typed): Errors =>
  Object.fromEntries(
    Object.entries(errors).map(([path, says]) => [Object.keys(typed).find((key) => path.startsWith(`${key}.`)) ?? path, says]),
  );
