'use client';
import { Fragment } from 'react';
import type { ReactNode } from 'react';
import type { Cell } from '#lib/words/quantities';
import { on } from './classes';

/** The three voices of a figure. Plain needs no element: entered by hand. */
export function Measured({ children }: { readonly children: ReactNode }) {
  return (
    <span className={on('measured')} data-voice="measured">
      {children}
    </span>
  );
}

const DIGITS = /([−+]?\d[\d.,\u00a0\u202f’]*)/;

/** A measured quantity with its unit: only the digits are in the instrument's face. */
export function MeasuredQuantity({ text }: { readonly text: string }) {
  return text.split(DIGITS).map((part, at) =>
    // Every other part is digits, by the way a split with a group works.
    // oxlint-disable-next-line react/no-array-index-key
    at % 2 === 1 ? <Measured key={at}>{part}</Measured> : <Fragment key={at}>{part}</Fragment>,
  );
}

interface WorkedProps {
  readonly children: ReactNode;
  readonly open: boolean;
  readonly onOpen: () => void;
  /** Id of the workings. */
  readonly controls: string;
  readonly label?: string | undefined;
}

/** Worked out: opens to its workings, which the page shows where it says. */
export function Worked({ children, open, onOpen, controls, label }: WorkedProps) {
  return (
    <button
      type="button"
      className={on('worked')}
      aria-expanded={open}
      aria-controls={open ? controls : undefined}
      aria-label={label}
      onClick={onOpen}
    >
      {children}
    </button>
  );
}

/** The digits of a cell with the unseen ones that keep decimals under each other. */
export function Digits({ cell }: { readonly cell: Cell }) {
  return (
    <>
      {cell.text}
      <Pad cell={cell} />
    </>
  );
}

export function Pad({ cell }: { readonly cell: Cell }) {
  return cell.pad === '' ? null : (
    <span className={on('pad')} aria-hidden="true">
      {cell.pad}
    </span>
  );
}

const NOTHING = '';
/** A cell with nothing to say. */
export function Blank({ className }: { readonly className?: string }) {
  return <td className={className}>{NOTHING}</td>;
}
