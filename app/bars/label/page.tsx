import type { Metadata } from 'next';
import { Suspense } from 'react';
import { messages } from './messages';
import { LabelPage } from './_parts/label-page';

export const metadata: Metadata = { title: messages.title };

/** `?id=` names the bar lot. */
export default function Page() {
  return (
    <Suspense>
      <LabelPage />
    </Suspense>
  );
}
