import type { Metadata } from 'next';
import { Suspense } from 'react';
import { followMessages } from '../messages-follow';
import { FollowPage } from '../_parts/follow-page';

export const metadata: Metadata = { title: followMessages.title };

/** `?lot=` and `?mark=` name what is followed: the pages are exported, so no address of theirs can hold it. */
export default function Page() {
  return (
    <Suspense>
      <FollowPage />
    </Suspense>
  );
}
