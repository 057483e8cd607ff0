import type { Metadata } from 'next';
import { Suspense } from 'react';
import { BarsScreen } from '../_parts/bars-screen';
import { barsMessages } from '../messages-bars';

export const metadata: Metadata = { title: barsMessages.title };

/** `?id=` names the bars: the pages are exported, so no address of theirs can hold it. */
export default function BarsOnBenchPage() {
  return (
    <Suspense>
      <BarsScreen />
    </Suspense>
  );
}
