import type { Metadata } from 'next';
import { TemperaturesScreen } from '../_parts/temperatures-screen';
import { messages } from '../messages';

export const metadata: Metadata = { title: messages.temperaturesPage.title };

export default function TemperaturesPage() {
  return <TemperaturesScreen />;
}
