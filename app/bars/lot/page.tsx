import type { Metadata } from 'next';
import { Suspense } from 'react';
import { lotMessages } from '../messages-lot';
import { LotPage } from '../_parts/lot-page';

export const metadata: Metadata = { title: lotMessages.title };

/** `?id=` names the bars: the pages are exported, so no address of theirs can hold it. */
export default function Page() {
  return (
    <Suspense>
      <LotPage />
    </Suspense>
  );
}
