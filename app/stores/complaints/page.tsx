import type { Metadata } from 'next';
import { Suspense } from 'react';
import { followMessages } from '../messages-follow';
import { ComplaintsPage } from '../_parts/complaints-page';

export const metadata: Metadata = { title: followMessages.complaints.title };

export default function Page() {
  return (
    <Suspense>
      <ComplaintsPage />
    </Suspense>
  );
}
