import { Hono } from 'hono';
import { as } from '#lib/units/id';
import { recordHtml } from '#lib/words/record/html';
import { recordSheet } from '#lib/words/record/record-sheet';
import { unboundName } from '#lib/words/instrument';
import { gatherBundle } from '../bundle/gather';
import { packed } from '../bundle/pack';
import { recordFacts } from '../export/facts';
import { batchPageOf } from './batch-page';
import type { ApiDeps } from './deps';
import { noBatch, problem } from './problem';

/** GET /api/proof/bundle/:id: one batch and what became of its bars, as a file that can be checked without us. */
export const bundle = (deps: ApiDeps): Hono =>
  new Hono().get('/:id', async (c) => {
    const found = await batchPageOf(deps, c.req.param('id'));
    if (found === null) return noBatch(c);
    const { store, scales } = deps.running();
    const bars = await store.bars.of(as(found.page.summary.id));
    const ofBars = await Promise.all(bars.map(({ id }) => store.bench.linesOf(id)));
    const lines = [...found.lines, ...ofBars.flat()].toSorted((a, b) => a.seq - b.seq);
    // What was entered since the newest head is to have one as well.
    await deps.keeper().sign();
    const sealer = deps.keeper().sealer();
    const names = new Map<string, string>(scales.map(({ id, name }) => [id, name]));
    const display = { locale: 'en-GB', mass: 'g', temperature: store.settings.screen().temperature } as const;
    const facts = await recordFacts(found, store, display, (id) => names.get(id) ?? unboundName(id));
    const { mark } = found.page.summary;
    const parts = sealer === null ? null : await gatherBundle(store, { mark, lines, page: recordHtml(recordSheet(facts)) }, sealer);
    if (parts === null)
      return problem(c, 409, 'No head with this batch in it could be signed.', 'Look in Setup, under Proof, for the reason.');
    c.header('content-type', 'application/zip');
    c.header('content-disposition', `attachment; filename*=UTF-8''${encodeURIComponent(`${mark}-bundle.zip`)}`);
    return c.body(await packed(parts, new Date()));
  });
