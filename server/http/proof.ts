import { zValidator } from '@hono/zod-validator';
import { Hono } from 'hono';
import type { Context } from 'hono';
import { toString as drawQr } from 'qrcode';
import { stampingAsk, withdrawAsk } from '#lib/protocol/proof';
import type { BatchProof, HeadPage, ProofPage } from '#lib/protocol/proof';
import { labelsOf, parsed } from '#lib/record/lines';
import { printedHead } from '#lib/record/printed';
import { as } from '#lib/units/id';
import { headPage } from '../proof/page';
import { wholeCheck } from '../proof/whole-check';
import { bundle } from './bundle';
import type { ApiDeps } from './deps';
import { makersOnly, unreadable } from './makers';
import { byOf } from './person';
import { problem } from './problem';

/** GET /api/proof, its note and its code; POST to check everything, to have heads stamped, and to withdraw a note's text. */
export const proof = (deps: ApiDeps): Hono => {
  const whole = wholeCheck(() => deps.running().store);
  return new Hono()
    .get('/', (c) => c.json(pageOf(deps)))
    .get('/note', (c) => sent(c, headPage(deps.running().store.proof, deps.running().store.proof.newest('bench'))))
    .get('/code', async (c) => {
      const head = deps.running().store.proof.newest('bench');
      return head === null ? noHead(c) : drawn(c, printedHead(head.checkpoint).qr);
    })
    .route('/bundle', bundle(deps))
    .get('/batch/:id', async (c) => c.json(await batchProof(deps, c.req.param('id'))))
    .get('/batch/:id/note', async (c) => sent(c, (await batchProof(deps, c.req.param('id'))).head))
    .get('/batch/:id/code', async (c) => {
      const { head } = await batchProof(deps, c.req.param('id'));
      return head === null ? noHead(c) : drawn(c, head.qr);
    })
    .post('/verify', makersOnly(deps), async (c) => c.json(await whole.begin()))
    .get('/verify', (c) => c.json(whole.state()))
    .post('/stamping', makersOnly(deps), zValidator('json', stampingAsk, unreadable), async (c) => {
      const { url } = c.req.valid('json');
      if (url !== null && !isAddress(url))
        return problem(c, 422, 'That is no address of a time-stamping authority.', 'It begins with https:// or http://.');
      const { store } = deps.running();
      if (url !== store.proof.stampUrl()) await store.proof.setStampUrl(url, byOf(deps, c));
      if (url !== null) await deps.keeper().stamp();
      return c.json(pageOf(deps));
    })
    .post('/batch/:id/withdraw', makersOnly(deps), zValidator('json', withdrawAsk, unreadable), async (c) => {
      const { version, why } = c.req.valid('json');
      const id = c.req.param('id');
      const { store } = deps.running();
      const row = await store.batches.get(as(id));
      if (row !== null && row.endedWall === null)
        return problem(c, 409, 'This batch is not done yet.', 'A note is withdrawn once its batch has ended.');
      const line = (await store.bench.linesOf(id)).find(({ text }) => labelsOf(parsed(text))?.version === version);
      const entry = line === undefined ? undefined : labelsOf(parsed(line.text))?.id;
      const gone = entry === undefined ? null : await store.proof.withdraw(entry, why, byOf(deps, c));
      if (gone === null) return problem(c, 404, 'There is no such note, or it is withdrawn already.', 'Open the batch again.');
      await deps.keeper().sign();
      return c.json(await batchProof(deps, id));
    });
};

const isAddress = (text: string): boolean => URL.canParse(text) && ['http:', 'https:'].includes(new URL(text).protocol);

const noHead = (c: Context): Response => problem(c, 404, 'No head has been signed yet.', 'One is signed when a batch closes, and daily.');

/** A head as a file, to be kept elsewhere. */
const sent = (c: Context, head: HeadPage | null): Response => {
  if (head === null) return noHead(c);
  c.header('content-disposition', `attachment; filename="potwatch-head-${head.seq}.txt"`);
  return c.body(head.note, 200, { 'content-type': 'text/plain; charset=utf-8' });
};

const drawn = async (c: Context, text: string): Promise<Response> => {
  const svg = await drawQr(text, { type: 'svg', errorCorrectionLevel: 'M', margin: 2 });
  return c.body(svg, 200, { 'content-type': 'image/svg+xml', 'cache-control': 'no-store' });
};

const pageOf = (deps: ApiDeps): ProofPage => {
  const { store } = deps.running();
  const from = store.proof.named()?.from ?? null;
  const { readOnly, damage } = store.health();
  return {
    bench: headPage(store.proof, store.proof.newest('bench')),
    workshop: headPage(store.proof, store.proof.newest('workshop')),
    keys: deps.keeper().keys(),
    from: from === null ? null : { bench: printedHead(from.bench), workshop: printedHead(from.workshop) },
    withdrawn: store.proof.withdrawn().length,
    stampUrl: store.proof.stampUrl(),
    trouble: deps.keeper().trouble(),
    readOnly,
    damage,
  };
};

const batchProof = async (deps: ApiDeps, id: string): Promise<BatchProof> => {
  const { store } = deps.running();
  const lines = await store.bench.linesOf(id);
  const newest = lines.at(-1);
  return {
    head: newest === undefined ? null : headPage(store.proof, store.proof.covering('bench', newest.seq)),
    withdrawn: lines.filter(({ withdrawn }) => withdrawn === true).length,
  };
};
