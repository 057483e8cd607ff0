'use client';
import { useEffect, useRef } from 'react';
import type { ReactNode } from 'react';
import styles from '../work.module.css';
import { guard } from '../../_live/use';

/** A sheet lies over the side of the screen, never over the number. It opens on a press and swallows the next one's beginning. */
export function SheetFrame({ title, teach, children }: { readonly title: string; readonly teach?: string; readonly children: ReactNode }) {
  const own = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    guard.quiet();
    own.current?.focus({ preventScroll: true });
  }, []);
  return (
    <dialog open ref={own} className={styles['sheet']} aria-label={title} tabIndex={-1}>
      <h2>{title}</h2>
      {/* What it says may change under a press: a wrong code. */}
      {teach === undefined ? null : <p aria-live="polite">{teach}</p>}
      {children}
    </dialog>
  );
}

/** Targets of a sheet, two or three beside each other. */
export function SheetGrid({ columns = 2, children }: { readonly columns?: 2 | 3; readonly children: ReactNode }) {
  return (
    <div className={styles['grid']} data-columns={columns}>
      {children}
    </div>
  );
}
