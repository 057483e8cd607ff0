import type { Metadata } from 'next';
import type { CSSProperties } from 'react';
import { missing } from './messages-missing';

export const metadata: Metadata = { title: missing.title };

/** Set by itself: what this page takes along, every route of the bench loads first. */
const SHEET: CSSProperties = {
  minHeight: '100vh',
  padding: 'calc(var(--step) * 7) var(--pad)',
  background: 'var(--ground)',
  color: 'var(--ink)',
  fontSize: 'var(--text-body)',
  lineHeight: 'var(--line)',
};

/** An address that no page has. */
export default function NotFound() {
  return (
    <main data-light="paper" style={SHEET}>
      <h1 style={{ font: '330 var(--text-title) / 1.06 var(--font-text)' }}>{missing.title}</h1>
      <p style={{ margin: 'calc(var(--step) * 2) 0' }}>{missing.lead}</p>
      <p>
        <a href="/" style={{ color: 'inherit' }}>
          {missing.act}
        </a>
      </p>
    </main>
  );
}
