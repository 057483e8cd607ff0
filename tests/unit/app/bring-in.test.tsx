// @vitest-environment jsdom
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { http, HttpResponse } from 'msw';
import { setupServer } from 'msw/node';
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest';
import { writeFile } from '#lib/work/formula/index';
import { NO_HABITS } from '#lib/work/shelf/documents';
import { WORKSHOP } from '#tests/support/formula';
import { FromFile } from '../../../app/formulas/_parts/bring-in';

const bench = setupServer();
beforeAll(() => bench.listen({ onUnhandledRequest: 'error' }));
afterEach(() => {
  bench.resetHandlers();
  cleanup();
});
afterAll(() => bench.close());

it('a file with a part that this workshop has not is refused by its name and line, and nothing is put', async () => {
  const asked: string[] = [];
  bench.use(
    http.get('/api/workshop', () => HttpResponse.json({ context: WORKSHOP, habits: NO_HABITS, formulas: {} })),
    http.all('/api/shelf/*', ({ request }) => {
      asked.push(request.url);
      return HttpResponse.json({ items: [], away: [], noun: 'preparation' });
    }),
  );
  const stock = { id: 'stock', name: 'Stock', parts: [{ material: 'only-there', lot: null, percent: '100' }], note: null };
  const text = writeFile({ formulas: [], materials: [], lots: [], moulds: [], preparations: [stock] });
  const line = text.split('\n').findIndex((one) => one.includes('only-there')) + 1;
  render(<FromFile onPut={() => asked.push('put')} />);
  const file = new File([text], 'stock.json', { type: 'application/json' });
  fireEvent.change(screen.getByLabelText('File of formulas (JSON)'), { target: { files: [file] } });
  const alert = await screen.findByRole('alert');
  expect(alert.textContent).toContain(`Line ${line}: In the preparation Stock: “only-there” is neither in this file`);
  expect(asked).toEqual([]);
});
