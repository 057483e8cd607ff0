import type { Metadata } from 'next';
import { messages } from './today/messages';
import { TodayPage } from './today/_parts/today-page';

export const metadata: Metadata = { title: messages.title };

export default function Page() {
  return <TodayPage />;
}
