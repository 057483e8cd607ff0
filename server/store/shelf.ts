import { createHash } from 'node:crypto';
import type { Json } from '#lib/record/journal';
import type { PersonId } from '#lib/units/id';
import { nextVersion } from '#lib/work/shelf/shelf';
import type { Noun, Put, Shelf } from '#lib/work/shelf/shelf';

/** A file that was kept beside the record: a certificate, a data sheet. */
export interface KeptFile {
  readonly sha256: string;
  readonly name: string;
  readonly type: string;
  readonly bytes: number;
}

export interface Putting {
  readonly noun: Noun;
  readonly id: string;
  /** The newest version the person had before them; 0 for something new. */
  readonly expected: number;
  /** `null` puts it away; its versions stay. */
  readonly document: Json;
  readonly note: string;
}

/** `stale`: somebody else has put another version since; nothing was written. */
export type PutAnswer = { readonly ok: true; readonly version: number } | { readonly ok: false; readonly stale: number };

/** Formulas, materials, lots, moulds, vessels and what is prepared for the bench. Every change is a line of the workshop journal. */
export interface WorkshopShelf {
  /** As it stands now, from memory. */
  now(): Shelf;
  /** Throws `NotCanonical` for a document with a fraction or what JSON cannot hold. */
  put(what: Putting, by: PersonId): Promise<PutAnswer>;
  /** Keeps a file's bytes by their SHA-256; the same bytes are kept once. */
  keepFile(file: { readonly name: string; readonly type: string; readonly bytes: Uint8Array }, by: PersonId): Promise<KeptFile>;
  /** `null`: no such file is kept. */
  file(sha256: string): KeptFile | null;
  /** All that are kept, in the order they came. */
  files(): readonly KeptFile[];
}

export interface ShelfParts {
  readonly shelf: () => Shelf;
  readonly files: () => ReadonlyMap<string, KeptFile>;
  /** Append one line and fold it. */
  readonly writePut: (body: Put, by: PersonId) => Promise<void>;
  readonly writeFile: (body: KeptFile, by: PersonId, bytes: Uint8Array) => Promise<void>;
}

/** The shelf over the workshop journal. */
export const openShelf = ({ shelf, files, writePut, writeFile }: ShelfParts): WorkshopShelf => ({
  now: shelf,
  async put({ noun, id, expected, document, note }, by) {
    const version = nextVersion(shelf(), noun, id);
    if (expected !== version - 1) return { ok: false, stale: version - 1 };
    await writePut({ noun, id, version, document, note }, by);
    return { ok: true, version };
  },
  async keepFile({ name, type, bytes }, by) {
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    const known = files().get(sha256);
    if (known !== undefined) return known;
    const kept: KeptFile = { sha256, name, type, bytes: bytes.length };
    await writeFile(kept, by, bytes);
    return kept;
  },
  file: (sha256) => files().get(sha256) ?? null,
  files: () => [...files().values()],
});
