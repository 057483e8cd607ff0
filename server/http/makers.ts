import type { Context, MiddlewareHandler } from 'hono';
import type { ApiDeps } from './deps';
import { problem } from './problem';

/** Only this machine, or a screen opened with the one-time code, may change anything. */
export const makersOnly =
  (deps: Pick<ApiDeps, 'isMaker'>): MiddlewareHandler =>
  async (c, next) => {
    if (!deps.isMaker(c)) return onlyMakers(c);
    return next();
  };

export const onlyMakers = (c: Context): Response =>
  problem(c, 403, 'This screen only watches.', 'Open it with the one-time code shown at the bench machine.');

/** For `zValidator`: what does not read is a problem in words. */
export const unreadable = (read: { success: boolean }, c: Context): Response | undefined =>
  read.success ? undefined : problem(c, 400, 'The request is not one this bench understands.', 'Reload the page and try again.');
