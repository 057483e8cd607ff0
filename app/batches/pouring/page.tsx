import type { Metadata } from 'next';
import { messages } from './messages';
import { PouringPage } from './_parts/pouring-page';

export const metadata: Metadata = { title: messages.title };

export default function Page() {
  return <PouringPage />;
}
