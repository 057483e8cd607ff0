import type { Metadata } from 'next';
import { messages } from './messages';
import { FormulasPage } from './_parts/formulas-page';

export const metadata: Metadata = { title: messages.title };

export default function Page() {
  return <FormulasPage />;
}
