import { mkdtempSync, rmSync, mkdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import type { Append, Json, JournalLine } from '#lib/record/journal';
import { gatherBundle } from '#server/bundle/gather';
import type { Parts } from '#server/bundle/gather';
import { startKeeper } from '#server/proof/keeper';
import type { Keeper } from '#server/proof/keeper';
import { openStore } from '#server/store/open';
import type { Store, StoreOptions } from '#server/store/store';
import { sampleBatch } from './sample-batch';

/** A record with its keeper, as the server has it. */
export interface Kept {
  readonly store: Store;
  readonly keeper: Keeper;
  /** One small batch from start to close, signed. */
  make(batch: string, more?: { readonly close?: boolean; readonly struckLine?: number }): Promise<void>;
  /** Parts of one batch's bundle. */
  bundle(batch: string): Promise<Parts>;
  close(): Promise<void>;
}

export const keptRecord = async (options: StoreOptions): Promise<Kept> => {
  const store = await openStore(options);
  const keeper = await startKeeper({ store, dir: options.dir, clock: options.clock, log: options.log });
  return {
    store,
    keeper,
    async make(batch, { close = true, struckLine } = {}) {
      const how = { batch, realm: options.realm, lines: 3, stripBytes: 300, close, struckLine: struckLine ?? null };
      for (const append of sampleBatch(how)) await store.bench.append(append);
      await keeper.sign();
    },
    async bundle(batch) {
      const lines = await store.bench.linesOf(batch);
      const sealer = keeper.sealer();
      const bundled = { mark: batch, lines, page: '<!doctype html><title>record</title>' };
      const parts = sealer === null ? null : await gatherBundle(store, bundled, sealer);
      if (parts === null) throw new Error(`no head has ${batch} in it`);
      return parts;
    },
    async close() {
      await keeper.stop();
      await store.close();
    },
  };
};

/** The parts as files in a folder, as after unpacking. */
export const unpacked = (parts: Parts): { readonly dir: string; remove(): void } => {
  const dir = mkdtempSync(join(tmpdir(), 'bundle-'));
  for (const [name, bytes] of parts) {
    mkdirSync(dirname(join(dir, name)), { recursive: true });
    writeFileSync(join(dir, name), bytes);
  }
  return { dir, remove: () => rmSync(dir, { recursive: true, force: true }) };
};

/** A note on a batch, as it is entered after its newest line. */
export const noteOn = (lines: readonly JournalLine[], text: string): Append => {
  const newest = JSON.parse(lines.at(-1)?.text ?? '{}') as { readonly salt: string; readonly batch: string; readonly version: number };
  const { salt: _salt, ...head } = newest;
  const { batch } = newest;
  const version = newest.version + 1;
  const id = `${batch}-${version}`;
  const value: Json = { ...head, id, version, kind: 'noted', intent: null, body: { text } };
  return { batch, entries: [{ id, batch, version, kind: 'noted', value }], intent: null, blobs: [] };
};
