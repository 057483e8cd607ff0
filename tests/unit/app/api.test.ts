// @vitest-environment jsdom
import { http, HttpResponse } from 'msw';
import { setupServer } from 'msw/node';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { InstrumentConfig } from '#lib/measure/instrument';
import type { BatchListRow, Health } from '#lib/protocol/http';
import { review } from '#lib/work/batch/review';
import { CARRY_NOTHING } from '#lib/work/shelf/carry';
import { as } from '#lib/units/id';
import { BatchRig } from '#tests/support/batch';
import { token } from '../../../app/_live/preferences';
import { api } from '../../../app/_ui/api';
import { apiMessages } from '../../../app/_ui/api-messages';

const bench = setupServer();
beforeAll(() => bench.listen({ onUnhandledRequest: 'error' }));
afterEach(() => {
  bench.resetHandlers();
  localStorage.clear();
});
afterAll(() => bench.close());

const HEALTH: Health = {
  ok: true,
  boot: 'b',
  build: '0.1.0',
  realm: 'practice',
  bench: 'bench',
  upMs: 1,
  journal: { ok: true, seq: 3, readOnly: null, damage: [] },
  instruments: [],
};
const ROW: BatchListRow = {
  id: 'a',
  mark: '26-1',
  realm: 'practice',
  name: 'Alder & oat',
  status: 'closed',
  startedWall: 1,
  endedWall: 2,
  lines: { closed: 9, of: 9 },
  actual: 1_470_100,
  planned: 1_470_100,
  overPours: 0,
  overrides: 0,
  byHand: 0,
  lots: [],
};
const PAGE = { instruments: [], ports: [], realm: 'real', leavePractice: false };
const SCALE: InstrumentConfig = {
  kind: 'scale',
  id: as('scale-main'),
  role: 'main',
  name: 'big scale',
  path: '/dev/ttyUSB0',
  shape: null,
  serial: { baudRate: 9600, frame: '8N1' },
  capacity: null,
  division: null,
};
/** Every way the client asks, with the route it goes to. */
const ASKS = [
  ['health', () => api.health(), 'get', '/api/health'],
  ['batches', () => api.batches(null, 50), 'get', '/api/batches'],
  ['batch', () => api.batch('a'), 'get', '/api/batches/a'],
  ['instruments', () => api.instruments(), 'get', '/api/instruments'],
  ['raw', () => api.raw('scale-main'), 'get', '/api/instruments/scale-main/raw'],
  ['bind', () => api.bind(SCALE), 'post', '/api/instruments'],
  ['unbind', () => api.unbind('scale-main'), 'post', '/api/instruments/unbind'],
  ['leavePractice', () => api.leavePractice(CARRY_NOTHING), 'post', '/api/instruments/leave-practice'],
  ['qr', () => api.qr(), 'get', '/api/qr'],
] as const;
const JSON_ASKS = ASKS.filter(([name]) => name !== 'qr');

describe('what the bench machine answers', () => {
  it('is handed on as it came', async () => {
    const rig = new BatchRig().start().weighAll();
    const batch = { ...review(rig.entries), record: { entries: 40, seq: 41, link: 'ab'.repeat(32) } };
    bench.use(
      http.get('/api/health', () => HttpResponse.json(HEALTH)),
      http.get('/api/batches', () => HttpResponse.json({ batches: [ROW], next: 'a' })),
      http.get('/api/batches/:id', ({ params }) => HttpResponse.json(params['id'] === 'a' ? batch : null)),
      http.get('/api/instruments', () => HttpResponse.json(PAGE)),
      http.get('/api/instruments/:id/raw', () => HttpResponse.json({ frames: [{ hex: '53', text: 'S', ageMs: 4, took: '0.0 g stable' }] })),
      http.get('/api/qr', () => new HttpResponse('<svg/>', { headers: { 'content-type': 'image/svg+xml' } })),
    );
    expect(await api.health()).toEqual({ ok: true, value: HEALTH });
    expect(await api.batches(null, 50)).toEqual({ ok: true, value: { batches: [ROW], next: 'a' } });
    expect(await api.batch('a')).toMatchObject({ ok: true, value: { summary: { mark: '26-11' }, record: { seq: 41 } } });
    expect(await api.instruments()).toEqual({ ok: true, value: PAGE });
    expect(await api.raw('scale-main')).toMatchObject({ ok: true, value: { frames: [{ took: '0.0 g stable' }] } });
    expect(await api.qr()).toEqual({ ok: true, value: '<svg/>' });
  });

  it('that nothing can be kept is an answer, though its status is 503', async () => {
    const ill = { ...HEALTH, ok: false, journal: { ok: false, seq: 3, readOnly: 'The record is damaged.' } };
    bench.use(http.get('/api/health', () => HttpResponse.json(ill, { status: 503 })));
    expect(await api.health()).toEqual({ ok: true, value: ill });
  });

  it.each(ASKS)('%s: a failure in words keeps its words', async (_name, ask, method, path) => {
    const problem = { error: 'This screen only watches.', kept: 'Nothing was changed.', todo: 'Open it with the code.' };
    bench.use(http[method](path, () => HttpResponse.json(problem, { status: 403 })));
    expect(await ask()).toEqual({ ok: false, problem, status: 403 });
  });

  it.each(ASKS)('%s: a failure without words gets some, with its number', async (_name, ask, method, path) => {
    bench.use(http[method](path, () => new HttpResponse('<h1>Bad gateway</h1>', { status: 502 })));
    expect(await ask()).toEqual({ ok: false, problem: apiMessages.unexpected(502), status: 502 });
    expect(apiMessages.unexpected(502).error).toContain('502');
  });

  it.each(JSON_ASKS)('%s: a body of another kind is not drawn', async (_name, ask, method, path) => {
    for (const body of [
      'null',
      '{}',
      '[]',
      '"text"',
      '{"batches":[{"id":7}],"next":null}',
      '{"frames":[{}]}',
      '{"instruments":{}}',
      '{"ok":',
    ]) {
      bench.use(http[method](path, () => new HttpResponse(body, { headers: { 'content-type': 'application/json' } })));
      expect(await ask(), body).toEqual({ ok: false, problem: apiMessages.unreadable, status: 200 });
    }
  });

  it.each(JSON_ASKS)('%s: another program’s page on this port is not drawn', async (_name, ask, method, path) => {
    bench.use(http[method](path, () => HttpResponse.html('<!doctype html><title>Router</title>')));
    expect(await ask()).toEqual({ ok: false, problem: apiMessages.unreadable, status: 200 });
  });

  it.each(ASKS)('%s: no answer at all says that the machine is gone', async (_name, ask, method, path) => {
    bench.use(http[method](path, () => HttpResponse.error()));
    expect(await ask()).toEqual({ ok: false, problem: apiMessages.gone, status: null });
  });
});

const heard = async (method: 'get' | 'post', path: string, answer: object, ask: () => Promise<unknown>): Promise<Request> => {
  let request: Request | null = null;
  bench.use(
    http[method](path, (seen) => {
      request = seen.request.clone();
      return HttpResponse.json(answer);
    }),
  );
  await ask();
  if (request === null) throw new Error('nothing was asked');
  return request;
};

describe('what the page asks', () => {
  it('pages through batches by the last one shown', async () => {
    const request = await heard('get', '/api/batches', { batches: [], next: null }, () => api.batches('a b&c', 6));
    expect(new URL(request.url).search).toBe('?limit=6&before=a%20b%26c');
  });

  it('puts no id into a path unescaped', async () => {
    const request = await heard('get', '/api/batches/*', {}, () => api.batch('../health?x'));
    expect(new URL(request.url).pathname).toBe('/api/batches/..%2Fhealth%3Fx');
  });

  it('binds with the whole instrument as JSON', async () => {
    const request = await heard('post', '/api/instruments', PAGE, () => api.bind(SCALE));
    expect(request.headers.get('content-type')).toBe('application/json');
    expect(await request.json()).toEqual(SCALE);
  });

  it('leaves practice only by saying so', async () => {
    const request = await heard('post', '/api/instruments/leave-practice', PAGE, () => api.leavePractice(CARRY_NOTHING));
    expect(await request.json()).toEqual({ leave: 'practice', formulas: [], moulds: [], cutters: [] });
  });

  it('shows the token of a paired screen, and nothing without one', async () => {
    const bare = await heard('get', '/api/instruments', PAGE, () => api.instruments());
    expect(bare.headers.get('authorization')).toBeNull();
    token.keep('secret');
    const paired = await heard('post', '/api/instruments/unbind', PAGE, () => api.unbind('scale-main'));
    expect(paired.headers.get('authorization')).toBe('Bearer secret');
  });
});
