import { Hono } from 'hono';
import type { PhotoAnswer } from '#lib/protocol/afterwards';
import { shrink } from '../photos/shrink';
import type { PhotoFault } from '../photos/shrink';
import type { ApiDeps } from './deps';
import { makersOnly } from './makers';
import { byOf } from './person';
import { problem } from './problem';

const HASH = /^[0-9a-f]{64}$/;
const TYPE = 'image/jpeg';

const FAULTS: Readonly<Record<PhotoFault, readonly [error: string, todo: string]>> = {
  'not-a-picture': ['That is no picture.', 'Take a JPEG, PNG or WebP picture.'],
  heic: [
    'That picture is HEIC, which this machine cannot read.',
    'Set the camera to JPEG (“most compatible”), or send a screenshot of it.',
  ],
  broken: ['The picture is damaged or came only in part.', 'Send it again, or take another.'],
};

/**
 * POST /api/photos with a picture's bytes: kept by the hash of what is left of it, on the disk before it is answered, so that whatever
 * entry or document names it finds it. GET /api/photos/:sha256 shows it; nothing ever changes under that address.
 */
export const photos = (deps: ApiDeps): Hono =>
  new Hono()
    .post('/', makersOnly(deps), async (c) => {
      const shrunk = await shrink(new Uint8Array(await c.req.arrayBuffer()));
      if (!shrunk.ok) return problem(c, 415, ...FAULTS[shrunk.fault]);
      const { sha256, bytes } = await deps
        .running()
        .store.shelf.keepFile({ name: 'photo.jpg', type: TYPE, bytes: shrunk.bytes }, byOf(deps, c));
      return c.json({ sha256, bytes } satisfies PhotoAnswer);
    })
    .get('/:sha256', async (c) => {
      const sha256 = c.req.param('sha256');
      const { store } = deps.running();
      const kept = HASH.test(sha256) ? store.shelf.file(sha256) : null;
      const bytes = kept?.type === TYPE ? await store.blobs.get(sha256) : null;
      if (bytes === null) return problem(c, 404, 'No such picture is kept.', 'Open it from its batch or its bars.');
      c.header('content-type', TYPE);
      c.header('content-disposition', 'inline; filename="photo.jpg"');
      c.header('content-security-policy', "sandbox; default-src 'none'");
      c.header('cache-control', 'private, max-age=31536000, immutable');
      return c.body(bytes as Uint8Array<ArrayBuffer>);
    });
