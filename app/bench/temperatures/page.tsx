import type { Metadata } from 'next';
import { TemperaturesScreen } from '../_parts/temperatures-screen';
import { temperatureMessages } from '../messages-temperatures';

export const metadata: Metadata = { title: temperatureMessages.title };

export default function TemperaturesPage() {
  return <TemperaturesScreen />;
}
