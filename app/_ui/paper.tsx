'use client';
import type { Route } from 'next';
import Link from 'next/link';
import { usePathname } from 'next/navigation';
import type { ReactNode } from 'react';
import { messages } from './messages';
import styles from './paper.module.css';

/** Pages in the order of the running head. Only what exists is listed: a page that is not there teaches nothing. */
const PAGES = [
  ['/', messages.nav.today],
  ['/batches', messages.nav.batches],
  ['/bench', messages.nav.bench],
  ['/setup', messages.nav.setup],
] as const;

/** The frame of every page on paper: running head, the page's sections, the key to the three voices of figures at the foot. */
export function PaperPage({ children, state }: { readonly children: ReactNode; readonly state?: ReactNode }) {
  const path = usePathname();
  return (
    <div data-light="paper" className={styles['page']}>
      <a className={styles['skip']} href="#page">
        {messages.skip}
      </a>
      <header className={styles['head']}>
        <div className={styles['row']}>
          <Link className={styles['mark']} href={'/' as Route} prefetch={false}>
            <Mark />
            {messages.product}
          </Link>
          <nav className={styles['nav']} aria-label={messages.pages}>
            {PAGES.map(([href, name]) => (
              <Link
                key={href}
                href={href as Route}
                prefetch={false}
                data-name={name}
                aria-current={isCurrent(path, href) ? 'page' : undefined}
              >
                {name}
              </Link>
            ))}
            {state}
          </nav>
        </div>
      </header>
      <main id="page">{children}</main>
      <footer className={styles['foot']}>
        <div className={styles['row']}>
          <span />
          <VoicesKey />
        </div>
      </footer>
    </div>
  );
}

const isCurrent = (path: string, href: string): boolean => (href === '/' ? path === '/' : path === href || path.startsWith(`${href}/`));

/** The page's subject with one or two sentences that say what matters; plain words in the margin. */
export function PaperTitle({ title, lead, side }: { readonly title: ReactNode; readonly lead?: ReactNode; readonly side?: ReactNode }) {
  return (
    <header className={`${styles['row']} ${styles['section']}`}>
      <div className={styles['side']}>{side}</div>
      <div>
        <h1 className={styles['title']}>{title}</h1>
        {lead === undefined ? null : <p className={styles['lead']}>{lead}</p>}
      </div>
    </header>
  );
}

/** One subject of a page: its name and a note in the margin, its matter in the wide column. */
export function PaperSection({ name, note, children }: { readonly name: string; readonly note?: ReactNode; readonly children: ReactNode }) {
  return (
    <section className={`${styles['row']} ${styles['section']}`} aria-label={name}>
      <div className={styles['side']}>
        <h2>{name}</h2>
        {note}
      </div>
      <div>{children}</div>
    </section>
  );
}

/** A figure an instrument measured: typewriter face. */
export function Measured({ children }: { readonly children: ReactNode }) {
  return <span className={styles['measured']}>{children}</span>;
}

function VoicesKey() {
  const { voices } = messages;
  return (
    <div className={styles['key']}>
      <span>{voices.entered}</span>
      <span className={styles['worked']}>{voices.worked}</span>
      <span className={styles['measured']}>{voices.measured}</span>
    </div>
  );
}

function Mark() {
  return (
    <svg viewBox="0 0 20 24" aria-hidden="true">
      <path d="M4 1v21h12V1M9 6h7M11.500 10H16M9 14h7M11.500 18H16" />
    </svg>
  );
}
