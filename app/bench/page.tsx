import type { Metadata } from 'next';
import { BenchScreen } from './_parts/bench-screen';
import { messages } from './messages';

export const metadata: Metadata = { title: messages.title };

export default function BenchPage() {
  return <BenchScreen />;
}
