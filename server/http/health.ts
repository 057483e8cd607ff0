import { Hono } from 'hono';
import type { Health } from '#lib/protocol/http';
import type { ApiDeps } from './deps';

/** GET /api/health: 200 while weights can be kept, 503 while they cannot. */
export const health = (deps: ApiDeps): Hono =>
  new Hono().get('/', (c) => {
    const running = deps.running();
    const { ok, seq, readOnly, damage } = running.store.health();
    const body: Health = {
      ok,
      boot: running.bench.boot,
      build: deps.build,
      realm: running.bench.realm,
      bench: running.bench.name,
      upMs: Math.round(running.bench.now()),
      journal: { ok, seq, readOnly, damage },
      instruments: running.links().map(({ instrument, phase }) => ({ id: instrument, phase })),
    };
    return c.json(body, ok ? 200 : 503);
  });
