import { Hono } from 'hono';
import type { Context } from 'hono';
import * as z from 'zod/mini';
import { BATCH_RECORD_SCHEMA } from '#lib/protocol/export';
import type { ArchiveTicket } from '#lib/protocol/export';
import type { MassUnit } from '#lib/units/mass';
import type { Display } from '#lib/units/display';
import { recordSheet } from '#lib/words/record/record-sheet';
import { weightRows, weightsHead } from '#lib/words/record/csv';
import { unboundName } from '#lib/words/instrument';
import { recordFacts, recordFile } from '../export/facts';
import { recordPdf } from '../export/pdf/record';
import { batchSchemaText } from '../export/schema';
import { batchPageOf } from './batch-page';
import { sendArchive } from './archive';
import type { ApiDeps } from './deps';
import { makersOnly, onlyMakers } from './makers';
import { noBatch, problem } from './problem';
import { createTickets } from './tickets';

const asked = z.object({
  paper: z._default(z.enum(['A4', 'Letter']), 'A4'),
  mass: z.optional(z.enum(['g', 'oz', 'lb'])),
  temperature: z.optional(z.enum(['C', 'F'])),
  locale: z._default(z.string().check(z.regex(/^[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*$/)), 'en-GB'),
});

const ALLOWED = 'paper is A4 or Letter, mass g, oz or lb, temperature C or F, locale a tag such as en-GB.';

/**
 * What goes out: GET /api/export/batches/:id/record.pdf?paper=&mass=&temperature=&locale=, /record.json and /weights.csv, and the schema
 * of the second at /api/export/batch-record.schema.json; everything at /api/export/archive.zip for a maker, or by a ticket
 * from a POST to /api/export/archive, as a link sends no pass; copies of the record at /api/export/backups,
 * where a POST makes one now.
 */
export const exports = (deps: ApiDeps): Hono => {
  const tickets = createTickets();
  return new Hono()
    .get(`/${BATCH_RECORD_SCHEMA}`, (c) => {
      c.header('content-type', 'application/schema+json');
      return c.body(batchSchemaText());
    })
    .get('/backups', (c) => c.json(deps.backups.page()))
    .post('/backups', makersOnly(deps), async (c) => {
      await deps.backups.now();
      return c.json(deps.backups.page());
    })
    .post('/archive', makersOnly(deps), (c) => {
      const body: ArchiveTicket = { path: `/api/export/archive.zip?ticket=${tickets.give()}` };
      return c.json(body);
    })
    .get('/archive.zip', (c) => (deps.isMaker(c) || tickets.take(c.req.query('ticket') ?? '') ? sendArchive(c, deps) : onlyMakers(c)))
    .get('/batches/:id/record.pdf', async (c) => {
      const how = asked.safeParse(c.req.query());
      if (!how.success) return problem(c, 400, 'The paper asked for is none.', ALLOWED);
      const found = await batchPageOf(deps, c.req.param('id'));
      if (found === null) return noBatch(c);
      const { store, scales } = deps.running();
      const names = new Map<string, string>(scales.map(({ id, name }) => [id, name]));
      const facts = await recordFacts(found, store, displayOf(deps, how.data), (id) => names.get(id) ?? unboundName(id));
      return send(
        c,
        await recordPdf(recordSheet(facts), how.data.paper, new Date()),
        'application/pdf',
        `${found.page.summary.mark}.pdf`,
        'inline',
      );
    })
    .get('/batches/:id/record.json', async (c) => {
      const found = await batchPageOf(deps, c.req.param('id'));
      if (found === null) return noBatch(c);
      return send(c, `${JSON.stringify(recordFile(found), null, 1)}\n`, 'application/json', `${found.page.summary.mark}.json`);
    })
    .get('/batches/:id/weights.csv', async (c) => {
      const found = await batchPageOf(deps, c.req.param('id'));
      if (found === null) return noBatch(c);
      return send(c, weightsHead + weightRows(found.page), 'text/csv; charset=utf-8', `${found.page.summary.mark}-weights.csv`);
    });
};

const displayOf = (
  deps: ApiDeps,
  { mass, temperature, locale }: Pick<z.infer<typeof asked>, 'mass' | 'temperature' | 'locale'>,
): Display => {
  const screen = deps.running().store.settings.screen();
  return { locale, mass: mass ?? shownIn(screen.mass), temperature: temperature ?? screen.temperature };
};

/** A screen shows no kilograms and no milligrams of its own. */
const shownIn = (unit: MassUnit): Display['mass'] => (unit === 'oz' || unit === 'lb' ? unit : 'g');

/** A file to be kept: nothing in it is run, whatever it holds. */
const send = (c: Context, body: string | Uint8Array, type: string, name: string, how: 'attachment' | 'inline' = 'attachment'): Response => {
  c.header('content-type', type);
  c.header('content-disposition', `${how}; filename*=UTF-8''${encodeURIComponent(name)}`);
  c.header('content-security-policy', "sandbox; default-src 'none'");
  return c.body(typeof body === 'string' ? body : (body as Uint8Array<ArrayBuffer>));
};
