import type { Metadata } from 'next';
import { messages } from './messages';
import { StoresPage } from './_parts/stores-page';

export const metadata: Metadata = { title: messages.title };

export default function Page() {
  return <StoresPage />;
}
