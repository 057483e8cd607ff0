import type { Metadata } from 'next';
import { messages } from './messages';
import { BarsPage } from './_parts/bars-page';

export const metadata: Metadata = { title: messages.title };

export default function Page() {
  return <BarsPage />;
}
