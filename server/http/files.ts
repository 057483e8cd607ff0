import { Hono } from 'hono';
import { FILE_TYPES } from '#lib/protocol/shelf';
import type { ApiDeps } from './deps';
import { makersOnly } from './makers';
import { byOf } from './person';
import { problem } from './problem';

const HASH = /^[0-9a-f]{64}$/;
const LONGEST_NAME = 120;

/** POST /api/files?name= with the bytes as body; GET /api/files/:sha256 gives them back, always to be saved, never to be run. */
export const files = (deps: ApiDeps): Hono =>
  new Hono()
    .post('/', makersOnly(deps), async (c) => {
      const type = FILE_TYPES.find((one) => one === c.req.header('content-type'));
      const name = c.req.query('name')?.trim() ?? '';
      if (type === undefined)
        return problem(c, 415, 'That is no kind of file this workshop keeps.', 'Take a PDF, a PNG or JPEG picture, or plain text.');
      if (name === '' || name.length > LONGEST_NAME || /[\p{Cc}/\\]/u.test(name))
        return problem(c, 400, 'The file has no name that can be kept.', `Give it a plain name of at most ${LONGEST_NAME} letters.`);
      const bytes = new Uint8Array(await c.req.arrayBuffer());
      if (bytes.length === 0) return problem(c, 400, 'The file is empty.', 'Choose it again.');
      return c.json(await deps.running().store.shelf.keepFile({ name, type, bytes }, byOf(deps, c)));
    })
    .get('/:sha256', async (c) => {
      const sha256 = c.req.param('sha256');
      const { store } = deps.running();
      const kept = HASH.test(sha256) ? store.shelf.file(sha256) : null;
      const bytes = kept === null ? null : await store.blobs.get(sha256);
      if (kept === null || bytes === null) return problem(c, 404, 'No such file is kept.', 'Open it from its lot.');
      c.header('content-type', kept.type);
      c.header('content-disposition', `attachment; filename*=UTF-8''${encodeURIComponent(kept.name)}`);
      c.header('content-security-policy', "sandbox; default-src 'none'");
      return c.body(bytes as Uint8Array<ArrayBuffer>);
    });
