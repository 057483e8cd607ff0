import type { Metadata } from 'next';
import { Suspense } from 'react';
import { messages } from '#lib/words/review/messages';
import { ReviewPage } from './_parts/review-page';

export const metadata: Metadata = { title: messages.title };

/** `?id=` names the batch: the pages are exported, so no address of theirs can hold it. */
export default function Page() {
  return (
    <Suspense>
      <ReviewPage />
    </Suspense>
  );
}
