import { Hono } from 'hono';
import { toString as drawQr } from 'qrcode';
import type { ApiDeps } from './deps';
import { problem } from './problem';

/** GET /api/qr: the address with the one-time code, as SVG, for a screen on this machine only: whoever sees the code may hold the bench. */
export const qr = (deps: ApiDeps): Hono =>
  new Hono().get('/', async (c) => {
    if (!deps.isHere(c))
      return problem(c, 403, 'The code is shown on the bench machine only.', 'Read it from the screen or the terminal there.');
    const address = deps.tabletAddress();
    if (address === null) {
      return problem(c, 404, 'This server listens on this machine only.', 'Start it with --host 0.0.0.0 (or one address) to use a tablet.');
    }
    const svg = await drawQr(address, { type: 'svg', errorCorrectionLevel: 'M', margin: 2 });
    return c.body(svg, 200, { 'content-type': 'image/svg+xml', 'cache-control': 'no-store' });
  });
