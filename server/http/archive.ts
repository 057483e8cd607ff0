import type { Context } from 'hono';
import type { BatchListRow } from '#lib/protocol/http';
import { archiveOf } from '../export/archive';
import { fileIn, keptFiles } from '../export/kept-files';
import { workshopTables } from '../export/workshop-tables';
import type { Store } from '../store/store';
import { batchPageOf } from './batch-page';
import type { ApiDeps } from './deps';

const PAGE = 200;

/** Everything of the record that runs, as one zip that is made while it is sent. */
export const sendArchive = async (c: Context, deps: ApiDeps): Promise<Response> => {
  const { store, bars } = deps.running();
  const made = new Date();
  const body = archiveOf({
    realm: store.realm,
    rows: () => allRows(store),
    batch: (id) => batchPageOf(deps, id),
    tables: (marks, pictures) => workshopTables({ store, people: deps.people(), barsState: (id) => bars.state(id) }, marks, pictures),
    files: {
      fileOf: (sha256) => fileIn(store, sha256),
      all: () => keptFiles(store),
    },
    copy: await deps.backups.copyOut(store.realm),
    proof: proofOf(deps, store),
    made,
  });
  const name = `potwatch-${store.realm}-${made.toISOString().slice(0, 10)}.zip`;
  c.header('content-type', 'application/zip');
  c.header('content-disposition', `attachment; filename="${name}"`);
  return c.body(body);
};

async function* allRows({ batches }: Pick<Store, 'batches'>): AsyncGenerator<BatchListRow> {
  let before: string | null = null;
  do {
    const page = await batches.list({ before, limit: PAGE });
    yield* page.batches;
    before = page.next;
  } while (before !== null);
}

const proofOf = (deps: ApiDeps, { proof }: Store): Record<string, string> => {
  const keys = deps.keeper().keys();
  const files: Record<string, string> = {};
  for (const journal of ['bench', 'workshop'] as const) {
    const head = proof.newest(journal);
    if (head !== null) files[`${journal}.note`] = head.note;
    if (keys !== null) files[`${journal}.key`] = `${keys[journal]}\n`;
  }
  return files;
};
