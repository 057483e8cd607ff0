'use client';
import type { ReactNode } from 'react';
import type { Cell } from './quantities';

/** The three voices of a figure. Plain needs no element: entered by hand. */
export function Measured({ children }: { readonly children: ReactNode }) {
  return <span className="measured">{children}</span>;
}

/** Worked out: opens to its workings, which the page shows where it says. */
export function Worked({
  children,
  open,
  onOpen,
  controls,
  label,
}: {
  readonly children: ReactNode;
  readonly open: boolean;
  readonly onOpen: () => void;
  /** Id of the workings. */
  readonly controls: string;
  readonly label?: string | undefined;
}) {
  return (
    <button
      type="button"
      className="worked"
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
    <span className="pad" aria-hidden="true">
      {cell.pad}
    </span>
  );
}

const NOTHING = '';
/** A cell with nothing to say. */
export function Blank({ className }: { readonly className?: string }) {
  return <td className={className}>{NOTHING}</td>;
}
