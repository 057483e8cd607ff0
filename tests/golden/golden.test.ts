import { readdirSync, readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { isSignedBy, readNote } from '#lib/record/note';
import type { BatchState } from '#lib/work/batch/index';
import { fold } from '#lib/work/batch/index';
import { review } from '#lib/work/batch/review';
import { upcastLines } from '#lib/work/batch/upcast';
import { labelsOf, parsed } from '#lib/record/lines';
import { verify } from '#lib/record/verify';
import { fromBase64 } from '#lib/units/base64';
import { ed25519 } from '#server/store/ed25519';
import { ProofFold } from '#server/store/proof-fold';
import { stateHash } from '#tests/support/record-rig';
import { asMuchAs } from './golden';
import type { Golden } from './golden';

const files = readdirSync(import.meta.dirname).filter((name) => name.endsWith('.json.gz'));
const read = (name: string): Golden => JSON.parse(gunzipSync(readFileSync(join(import.meta.dirname, name))).toString()) as Golden;

it('there is a golden journal', () => {
  expect(files.length).toBeGreaterThan(0);
});

/** Written by an earlier program, kept for ever: verify, upcast, fold, and compare with what it folded to then. */
describe.each(files)('%s', (name) => {
  const golden = read(name);
  const proof = new ProofFold();
  for (const { text } of golden.workshop) proof.take(JSON.parse(text));

  const heads = (journal: 'bench' | 'workshop') => proof.signed[journal].map(({ checkpoint }) => checkpoint);

  it('holds: both chains, and every signed head with its signature', () => {
    expect(heads('bench').length).toBeGreaterThan(0);
    expect(verify(golden.bench, heads('bench')).breaks).toEqual([]);
    expect(verify(golden.workshop, heads('workshop')).breaks).toEqual([]);
    for (const { note, publicKey } of proof.signed.bench) {
      const signed = readNote(note);
      expect(signed !== null && isSignedBy(signed, fromBase64(publicKey) ?? new Uint8Array(), ed25519)).toBe(true);
    }
  });

  it.each(golden.batches)('batch $id is upcast and folds to the state it had', ({ id, hash, state }) => {
    const texts = golden.bench.map(({ text }) => text).filter((text) => labelsOf(parsed(text))?.batch === id);
    const upcast = upcastLines(texts);
    if (!upcast.ok) throw new Error(`entry ${upcast.at + 1}: ${upcast.failure.detail}`);
    const now = fold(upcast.entries);
    expect(asMuchAs(now, state)).toEqual(state);
    expect(stateHash(asMuchAs(now, state) as BatchState | null)).toBe(hash);
    expect(review(upcast.entries).summary.status).toBe(state?.status);
  });
});
