import type { Metadata } from 'next';
import { messages } from './messages';
import { BatchesPage } from './_parts/batches-page';

export const metadata: Metadata = { title: messages.title };

export default function Page() {
  return <BatchesPage />;
}
