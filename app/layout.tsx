import type { Metadata, Viewport } from 'next';
import type { ReactNode } from 'react';
import './_ui/tokens.css';
import './_ui/base.css';
import { faces } from './_ui/faces';
import { messages } from './_ui/messages';

export const metadata: Metadata = {
  title: { default: messages.product, template: `%s · ${messages.product}` },
  description: messages.about,
};

// Zoom stays allowed: who cannot read the screen may enlarge it.
export const viewport: Viewport = { width: 'device-width', initialScale: 1 };

/** Every page names its own light (`data-light`) on its outermost element. */
export default function RootLayout({ children }: { readonly children: ReactNode }) {
  return (
    <html lang="en" className={faces}>
      <body>{children}</body>
    </html>
  );
}
