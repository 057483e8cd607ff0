// @vitest-environment jsdom
import { http, HttpResponse } from 'msw';
import { setupServer } from 'msw/node';
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest';
import type { Preparation } from '#lib/work/formula/index';
import { putAll } from '../../../app/formulas/_parts/put-all';

const bench = setupServer();
beforeAll(() => bench.listen({ onUnhandledRequest: 'error' }));
afterEach(() => bench.resetHandlers());
afterAll(() => bench.close());

const whole = (id: string, material: string, lot: string | null): Preparation => ({
  id,
  name: id,
  parts: [{ material, lot, percent: '100' }],
  note: null,
});

it('puts what a preparation is made of before it: lots, and preparations from the innermost on, whatever their order in the file', async () => {
  const put: string[] = [];
  bench.use(
    http.get('/api/shelf/:noun', ({ params }) => HttpResponse.json({ noun: params['noun'], items: [], away: [] })),
    http.post('/api/shelf/:noun/:id', ({ params }) => {
      put.push(String(params['id']));
      return HttpResponse.json({ version: 1 });
    }),
  );
  const preparations = [whole('outer', 'middle', null), whole('middle', 'inner', null), whole('inner', 'olive', 'lot-olive')];
  const lots = [{ id: 'lot-olive', mark: 'OL 26-01', material: 'olive', certificate: null, files: [] }];
  const done = await putAll({ format: 'potwatch-formulas', version: 1, formulas: [], materials: [], preparations, lots, moulds: [] });
  expect(done).toMatchObject({ put: 4, problem: null });
  expect(put).toEqual(['lot-olive', 'inner', 'middle', 'outer']);
});
