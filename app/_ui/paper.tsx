'use client';
import type { Route } from 'next';
import Link from 'next/link';
import { usePathname } from 'next/navigation';
import type { ReactNode } from 'react';
import { useConnection } from '../_live/use';
import { Acting } from './acting';
import { BenchLine } from './bench-line';
import { messages } from './messages';
import { Gone } from './problem';
import { on } from './classes';
import { DueCount } from './due/due-count';

/** Pages in the order of the running head. Only what exists is listed: a page that is not there teaches nothing. */
const PAGES = [
  ['/', messages.nav.today],
  ['/formulas', messages.nav.formulas],
  ['/batches', messages.nav.batches],
  ['/bars', messages.nav.bars],
  ['/stores', messages.nav.stores],
  ['/bench', messages.nav.bench],
  ['/setup', messages.nav.setup],
] as const;

/** The frame of every page on paper: running head with the state of the bench, the page's sections, the key to the three voices at the foot. */
export function PaperPage({ children, foot }: { readonly children: ReactNode; readonly foot?: string }) {
  const path = usePathname();
  useConnection(null);
  return (
    <div data-light="paper" className={on('paper')}>
      <a href="#page">{messages.skip}</a>
      <header className={on('running')}>
        <div className={on('row')}>
          <Link href={'/' as Route} prefetch={false}>
            <Mark />
            {messages.product}
          </Link>
          <div>
            <nav aria-label={messages.pages}>
              {PAGES.map(([href, name]) => (
                <Link
                  key={href}
                  href={href as Route}
                  prefetch={false}
                  data-name={name}
                  aria-current={isCurrent(path, href) ? 'page' : undefined}
                >
                  {name}
                  {href === '/bars' ? <DueCount /> : null}
                </Link>
              ))}
            </nav>
            <p>
              <BenchLine />
              <Acting />
            </p>
          </div>
        </div>
      </header>
      <main id="page">
        <Gone />
        {children}
      </main>
      <footer>
        <div className={on('row')}>
          <span>{foot}</span>
          <VoicesKey />
        </div>
      </footer>
    </div>
  );
}

const isCurrent = (path: string, href: string): boolean => (href === '/' ? path === '/' : path === href || path.startsWith(`${href}/`));

function VoicesKey() {
  const { voices } = messages;
  return (
    <div>
      <p>
        <b>{voices.sample}</b> {voices.entered}
      </p>
      <p>
        <span className={on('worked')}>{voices.sample}</span> {voices.worked}
      </p>
      <p>
        <span className={on('measured')}>{voices.sample}</span> {voices.measured}
      </p>
    </div>
  );
}

/** A rule with graduations on both sides, the finer one shifted: a vernier. */
function Mark() {
  return (
    <svg viewBox="0 0 20 24" aria-hidden="true">
      <path d="M10 1v22M10 1H2M10 6.500H5M10 12H2M10 17.500H5M10 23H2M10 1h8M10 5h5M10 9h8M10 13h5M10 17h8M10 21h5" />
    </svg>
  );
}
