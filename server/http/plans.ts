import { Hono } from 'hono';
import type { ApiDeps } from './deps';

/** GET /api/plans */
export const plans = (deps: ApiDeps): Hono => new Hono().get('/', (c) => c.json(deps.running().plans.list()));
