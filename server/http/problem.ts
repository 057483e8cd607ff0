import type { Context } from 'hono';
import type { ContentfulStatusCode } from 'hono/utils/http-status';
import type { HttpProblem } from '#lib/protocol/http';

/** The one shape of every failure over HTTP: what happened, what was kept, what to do. */
export const problem = (c: Context, status: ContentfulStatusCode, error: string, todo: string, kept = 'Nothing was changed.'): Response => {
  const body: HttpProblem = { error, kept, todo };
  return c.json(body, status);
};

export const noBatch = (c: Context): Response =>
  problem(c, 404, 'There is no such batch in this workshop.', 'Open it from the list of batches.');
