import type { Metadata } from 'next';
import { messages } from './messages';
import { SetupPage } from './_parts/setup-page';

export const metadata: Metadata = { title: messages.title };

export default function Page() {
  return <SetupPage />;
}
