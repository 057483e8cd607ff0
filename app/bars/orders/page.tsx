import type { Metadata } from 'next';
import { messages } from '../messages-orders';
import { OrdersPage } from './_parts/orders-page';

export const metadata: Metadata = { title: messages.title };

export default function Page() {
  return <OrdersPage />;
}
