import type { ReactNode } from 'react';
import { on } from './classes';

/** The page's subject with two sentences that say what matters; plain words in the margin. */
export function PaperTitle({
  title,
  lead,
  side,
  children,
}: {
  readonly title: ReactNode;
  readonly lead?: ReactNode;
  readonly side?: ReactNode;
  readonly children?: ReactNode;
}) {
  return (
    <header className={on('row section')}>
      <div className={on('side')}>{side}</div>
      <div>
        <h1>{title}</h1>
        {lead === undefined ? null : <p className={on('lead')}>{lead}</p>}
        {children}
      </div>
    </header>
  );
}

/** One subject of a page: its name and a note in the margin, its matter in the wide column. */
export function PaperSection({
  name,
  note,
  id,
  children,
}: {
  readonly name: string;
  readonly note?: ReactNode;
  /** Where an address within the page leads. */
  readonly id?: string;
  readonly children: ReactNode;
}) {
  return (
    <section className={on('row section')} aria-label={name} id={id}>
      <div className={on('side')}>
        <h2>{name}</h2>
        {note}
      </div>
      <div>{children}</div>
    </section>
  );
}

/** What to do, in its order, where nothing stands yet. */
export function Steps({ steps }: { readonly steps: readonly string[] }) {
  return (
    <ol className={on('steps')}>
      {steps.map((step) => (
        <li key={step}>
          <p>{step}</p>
        </li>
      ))}
    </ol>
  );
}
