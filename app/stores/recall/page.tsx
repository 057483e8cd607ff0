import type { Metadata } from 'next';
import { Suspense } from 'react';
import { followMessages } from '../messages-follow';
import { RecallPage } from '../_parts/recall-page';

export const metadata: Metadata = { title: followMessages.recall.title };

export default function Page() {
  return (
    <Suspense>
      <RecallPage />
    </Suspense>
  );
}
