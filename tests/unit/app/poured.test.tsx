// @vitest-environment jsdom
import { cleanup, render, screen } from '@testing-library/react';
import { http, HttpResponse } from 'msw';
import { setupServer } from 'msw/node';
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest';
import { Poured } from '../../../app/_ui/due/poured';

const bench = setupServer();
beforeAll(() => bench.listen({ onUnhandledRequest: 'error' }));
afterEach(cleanup);
afterAll(() => bench.close());

it('a batch that is poured and has no bars yet is told where the day begins', async () => {
  const batch = { id: 'b', mark: '26-11', name: 'Meadowsweet' };
  bench.use(http.get('/api/bars/waiting', () => HttpResponse.json({ batches: [{ batch, moulds: [{ n: 1 }], begun: [] }] })));
  render(<Poured revision="" />);
  expect((await screen.findByText(/from the moulds of 26-11 Meadowsweet/)).textContent).toContain('nothing reminds of them');
  expect(screen.getByRole('link', { name: 'Begin the bars' }).getAttribute('href')).toBe('/bars');
});
