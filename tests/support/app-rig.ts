import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Context, Hono } from 'hono';
import { pino } from 'pino';
import { labelled } from '#lib/record/journal';
import { as } from '#lib/units/id';
import type { BatchId } from '#lib/units/id';
import type { Entry, Realm } from '#lib/work/batch/index';
import { createBarsDesk } from '#server/bars/desk';
import { newId } from '#server/bench/system';
import { startBackups } from '#server/backup/backups';
import type { Copying } from '#server/backup/apart';
import { copyRecord } from '#server/backup/copy';
import type { Backups } from '#server/backup/backups';
import { reviewOf } from '#server/bench/restore';
import { createApp } from '#server/http/app';
import type { ApiDeps } from '#server/http/deps';
import { startKeeper } from '#server/proof/keeper';
import type { Keeper } from '#server/proof/keeper';
import { openStore } from '#server/store/open';
import type { Store } from '#server/store/store';
import { appendOf } from '#tests/support/appends';
import { STILL } from '#tests/support/store-rig';

/** The HTTP side of the server over a real record, without ports, pages or a bench. */
export interface AppRig {
  readonly dir: string;
  readonly store: Store;
  readonly app: Hono;
  readonly backups: Backups;
  readonly keeper: Keeper;
  /** What a GET gives, as the kind of body asked for. */
  get(path: string): Promise<Response>;
  /** Puts down the lines of one batch as one decision. */
  enter(entries: readonly Entry[]): Promise<void>;
  /** Lets go of the record and leaves it where it is. */
  stop(): Promise<void>;
  close(): Promise<void>;
}

const SCALES = [
  { id: 'scale-main', name: 'big scale', role: 'main', capacity: null, division: 100, repeatability: null },
  { id: 'scale-fine', name: 'small scale', role: 'fine', capacity: null, division: 10, repeatability: null },
] as const;

/** In this process: one of its own takes a second to begin, and has a test of its own. */
const copyHere = (from: string, to: string): Copying => ({
  done: Promise.resolve().then(() => copyRecord(from, to)),
  stop: () => undefined,
});

export const appRig = async (realm: Realm = 'real', dir = mkdtempSync(join(tmpdir(), 'app-'))): Promise<AppRig> => {
  const log = pino({ level: 'silent' });
  const store = await openStore({ dir, realm, clock: STILL, log });
  const keeper = await startKeeper({ store, dir, clock: STILL, log });
  const backups = startBackups({ dir, wall: () => STILL.wall(), log, copy: copyHere });
  const bars = createBarsDesk({ journal: store.bench, realm, newEntryId: newId, trouble: () => undefined });
  const deps = {
    build: 'test',
    log,
    running: () => ({ store, bars, scales: SCALES.map((scale) => ({ ...scale, id: as(scale.id) })), links: () => [] }),
    people: () => store.settings,
    keeper: () => keeper,
    backups,
    reviewOf: (batch: BatchId) => reviewOf(store.bench, batch),
    tabletAddress: () => null,
    isHere: () => true,
    isMaker: (c: Context) => c.req.header('x-watcher') === undefined,
  } as unknown as ApiDeps;
  const app = createApp(deps, { count: 0, respond: () => new Response(null, { status: 404 }) });
  const stop = async (): Promise<void> => {
    await backups.stop();
    await keeper.stop();
    await store.close();
  };
  return {
    dir,
    store,
    app,
    backups,
    keeper,
    get: async (path) => app.request(path),
    async enter(entries) {
      await store.bench.append(appendOf(entries.map(labelled)));
    },
    stop,
    async close() {
      await stop();
      rmSync(dir, { recursive: true, force: true });
    },
  };
};
