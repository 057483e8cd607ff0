import { zValidator } from '@hono/zod-validator';
import { Hono } from 'hono';
import type { Context } from 'hono';
import { NotCanonical } from '#lib/record/canonical';
import type { Json } from '#lib/record/journal';
import { putAsk } from '#lib/protocol/shelf';
import { shelfId } from '#lib/work/words';
import type { NotKept, ShelfDocument, ShelfList } from '#lib/protocol/shelf';
import { checkDocument } from '#lib/work/shelf/check';
import type { FieldProblem } from '#lib/work/shelf/check';
import { NOUNS, putAway, standing } from '#lib/work/shelf/shelf';
import type { Noun, Shelf } from '#lib/work/shelf/shelf';
import type { ApiDeps } from './deps';
import { makersOnly, unreadable } from './makers';
import { byOf } from './person';
import { problem } from './problem';

/** GET /api/shelf/:noun, GET and POST /api/shelf/:noun/:id. */
export const shelf = (deps: ApiDeps): Hono => {
  const now = (): Shelf => deps.running().store.shelf.now();
  return new Hono()
    .get('/:noun', (c) => {
      const noun = nounOf(c);
      if (noun === null) return noSuchNoun(c);
      const shelf = now();
      const items = standing(shelf, noun).map(({ id, newest: { version, wall, document } }) => ({ id, version, wall, document }));
      const away = putAway(shelf, noun).map(({ id, version, last: { wall, document } }) => ({ id, version, wall, document }));
      return c.json({ noun, items, away } satisfies ShelfList);
    })
    .get('/:noun/:id', (c) => {
      const noun = nounOf(c);
      if (noun === null) return noSuchNoun(c);
      const kept = now()[noun].get(c.req.param('id'));
      if (kept === undefined) return problem(c, 404, 'There is nothing of that name.', 'Open it from its list.');
      const versions = kept.versions.map(({ version, wall, note, document }) => ({ version, wall, note, document }));
      return c.json({ id: kept.id, versions } satisfies ShelfDocument);
    })
    .post('/:noun/:id', makersOnly(deps), zValidator('json', putAsk, unreadable), async (c) => {
      const noun = nounOf(c);
      const id = shelfId.safeParse(c.req.param('id'));
      if (noun === null || !id.success) return noSuchNoun(c);
      const { expected, note } = c.req.valid('json');
      const document = c.req.valid('json').document as Json;
      const wrong = document === null ? [] : checkDocument(noun, id.data, document, now);
      if (wrong.length > 0) return refused(c, wrong);
      try {
        const answer = await deps.running().store.shelf.put({ noun, id: id.data, expected, document, note }, byOf(deps, c));
        if (answer.ok) return c.json({ version: answer.version });
        return problem(
          c,
          409,
          'It was changed somewhere else meanwhile.',
          'Open the newest version, and put in there what you changed.',
          'The newest version is kept as it is; what you typed is still on this page.',
        );
      } catch (cause) {
        if (cause instanceof NotCanonical) return refused(c, [{ path: cause.path, says: 'A number here is no whole number.' }]);
        throw cause;
      }
    });
};

const nounOf = (c: Context): Noun | null => NOUNS.find((noun) => noun === c.req.param('noun')) ?? null;

const noSuchNoun = (c: Context): Response => problem(c, 404, 'The workshop keeps nothing of that kind.', 'Open it from its list.');

/** A document that cannot be kept, with what is wrong beside each field. */
const refused = (c: Context, fields: readonly FieldProblem[]): Response =>
  c.json(
    {
      error: fields[0]?.says ?? 'This cannot be kept.',
      kept: 'What was kept before stands; what you typed is still on this page.',
      todo: 'Mend what is marked, then keep it again.',
      fields,
    } satisfies NotKept,
    422,
  );
