import type { Metadata } from 'next';
import { Suspense } from 'react';
import { messages } from './messages';
import { NetPage } from './_parts/net-page';

export const metadata: Metadata = { title: messages.title };

/** `?id=` names the bar lot. */
export default function Page() {
  return (
    <Suspense>
      <NetPage />
    </Suspense>
  );
}
