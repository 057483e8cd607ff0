import { Hono } from 'hono';
import { HTTPException } from 'hono/http-exception';
import { LARGEST_PHOTO } from '#lib/protocol/afterwards';
import { LARGEST_FILE } from '#lib/protocol/shelf';
import { JournalReadOnly } from '#lib/record/journal';
import { StoreProblem } from '../store/problem';
import { bars } from './bars';
import { afterwards } from './afterwards';
import { batches } from './batches';
import type { ApiDeps } from './deps';
import { exports } from './exports';
import { files } from './files';
import { health } from './health';
import { history } from './history';
import { instruments } from './instruments';
import { labels } from './labels';
import { orders } from './orders';
import { complaints } from './complaints';
import { follow, lots } from './lots';
import { people } from './people';
import { photos } from './photos';
import { plans } from './plans';
import { problem } from './problem';
import { proof } from './proof';
import { qr } from './qr';
import { shelf } from './shelf';
import { workshop } from './workshop';
import type { Pages } from './static';

/** The length a request states is the length it has: Node's parser ends it there. */
const LARGEST_BODY = 64 * 1024;
const LARGEST_DOCUMENT = 256 * 1024;

const largestBody = (path: string): number => {
  if (path === '/api/files') return LARGEST_FILE;
  if (path === '/api/photos') return LARGEST_PHOTO;
  return path.startsWith('/api/shelf/') ? LARGEST_DOCUMENT : LARGEST_BODY;
};

/** Everything answered over HTTP: the API below `/api`, and the exported pages. Every failure is an `HttpProblem`. */
export const createApp = (deps: ApiDeps, pages: Pages): Hono => {
  const app = new Hono();
  app.use('/api/*', async (c, next) => {
    await next();
    c.header('x-content-type-options', 'nosniff');
    c.header('cross-origin-resource-policy', 'same-origin');
    if (!c.res.headers.has('cache-control')) c.header('cache-control', 'no-store');
  });
  app.use('/api/*', async (c, next) => {
    if (c.req.header('transfer-encoding') !== undefined)
      return problem(c, 411, 'The request does not say how large it is.', 'Send it with its length.');
    if (Number(c.req.header('content-length') ?? 0) > largestBody(c.req.path))
      return problem(c, 413, 'The request is larger than any this bench understands.', 'Send less.');
    return next();
  });
  app.route('/api/health', health(deps));
  app.route('/api/bars', bars(deps));
  app.route('/api/batches', batches(deps));
  app.route('/api/batches', afterwards(deps));
  app.route('/api/export', exports(deps));
  app.route('/api/history', history(deps));
  app.route('/api/instruments', instruments(deps));
  app.route('/api/labels', labels(deps));
  app.route('/api/orders', orders(deps));
  app.route('/api/people', people(deps));
  app.route('/api/lots', lots(deps));
  app.route('/api/follow', follow(deps));
  app.route('/api/complaints', complaints(deps));
  app.route('/api/photos', photos(deps));
  app.route('/api/plans', plans(deps));
  app.route('/api/proof', proof(deps));
  app.route('/api/qr', qr(deps));
  app.route('/api/shelf', shelf(deps));
  app.route('/api/files', files(deps));
  app.route('/api/workshop', workshop(deps));
  app.all('/api/*', (c) => problem(c, 404, 'The bench has no such address.', 'Open the bench at its first page.'));
  app.all('*', (c) => pages.respond(c.req.raw));
  app.onError((error, c) => {
    if (error instanceof HTTPException) return problem(c, error.status, 'The request could not be read.', 'Reload the page and try again.');
    // The log has it already, from where it began.
    if (error instanceof JournalReadOnly) return problem(c, 503, error.message, 'Run "npm run doctor" on the bench machine.');
    deps.log.error({ err: error, path: c.req.path }, 'a request failed');
    if (error instanceof StoreProblem) return c.json({ error: error.happened, kept: error.kept, todo: error.todo }, 500);
    return problem(
      c,
      500,
      'Something went wrong on the bench machine.',
      'Try again; if it stays, look at its log.',
      'What was committed before is kept.',
    );
  });
  return app;
};
