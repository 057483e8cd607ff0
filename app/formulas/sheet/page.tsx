import type { Metadata } from 'next';
import { Suspense } from 'react';
import { messages } from '../messages-sheet';
import { SheetPage } from '../_parts/sheet-page';

export const metadata: Metadata = { title: messages.title };

/** `?id=` names the formula: the pages are exported, so no address of theirs can hold it. */
export default function Page() {
  return (
    <Suspense>
      <SheetPage />
    </Suspense>
  );
}
