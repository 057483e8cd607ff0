import { readNote } from '#lib/record/note';
import type { Checkpoint } from '#lib/record/note';
import type { JournalName } from './tables';

/** What the workshop journal says of the proof of both journals. */
export interface ProofBodies {
  /** The record has a name and a key from here on. `from`: it goes on from a copy of another one, whose heads these are. */
  'journal-named': Named;
  /** Signed notes of both journals, or of the one that has grown. */
  'head-signed': { readonly notes: readonly string[] };
  /** An authority elsewhere has stamped a signed note; its answer is kept beside the record, by SHA-256. */
  'head-stamped': Stamp;
  /** Where stamps are asked for; `null`: nowhere. */
  'stamping-set': { readonly url: string | null };
  /** The text of one line of the bench journal is gone for good; `stub` reads in its place. */
  'text-withdrawn': Withdrawn;
}
export type ProofKind = keyof ProofBodies;

export interface Named {
  /** Hex; the origin of every head is made with it. */
  readonly id: string;
  /** Ed25519, 32 bytes, base64. */
  readonly publicKey: string;
  readonly from?: Readonly<Record<JournalName, Checkpoint>>;
}

export interface Stamp {
  /** SHA-256 of the note, hex. */
  readonly note: string;
  /** SHA-256 of the authority's answer, hex. */
  readonly token: string;
  /** When, by the authority's clock: ISO 8601, UTC. */
  readonly at: string;
  readonly url: string;
}

export interface Withdrawn {
  readonly seq: number;
  readonly leaf: string;
  /** The line's entry as JSON text, with nothing in it of what was withdrawn. */
  readonly stub: string;
  readonly why: string;
}

export interface SignedHead {
  readonly checkpoint: Checkpoint;
  readonly note: string;
  /** Ed25519, 32 bytes, base64: the record's key at that time. */
  readonly publicKey: string;
  /** When it was signed by this machine's clock, ms. */
  readonly wall: number;
}

const TAKES: { readonly [K in ProofKind]: (fold: ProofFold, body: ProofBodies[K], wall: number) => void } = {
  'journal-named': (fold, body) => fold.nameIt(body),
  'head-signed': (fold, body, wall) => fold.sign(body.notes, wall),
  'head-stamped': (fold, body) => void fold.stamps.set(body.note, body),
  'stamping-set': (fold, body) => fold.stampAt(body.url),
  'text-withdrawn': (fold, body) => void fold.withdrawn.set(body.seq, body),
};

/** The lines of the workshop journal that are about proof, folded. The heads may be ten thousand: it is changed, not copied. */
export class ProofFold {
  readonly signed: Readonly<Record<JournalName, SignedHead[]>> = { bench: [], workshop: [] };
  readonly stamps = new Map<string, Stamp>();
  readonly withdrawn = new Map<number, Withdrawn>();
  #named: Named | null = null;
  #stampUrl: string | null = null;
  #unsigned = 0;

  /** One line further, whatever its kind. */
  take(value: unknown): void {
    const { kind, v, body, wall } = value as { readonly kind: string; readonly v: number; readonly body: never; readonly wall: number };
    if (!Object.hasOwn(TAKES, kind)) this.#unsigned += 1;
    else if (v === 1) TAKES[kind as ProofKind](this, body, wall);
  }

  named(): Named | null {
    return this.#named;
  }

  stampUrl(): string | null {
    return this.#stampUrl;
  }

  /** Lines of the workshop journal since its newest head that are not about proof themselves. */
  unsigned(): number {
    return this.#unsigned;
  }

  nameIt(named: Named): void {
    this.#named = named;
  }

  stampAt(url: string | null): void {
    this.#stampUrl = url;
  }

  sign(notes: readonly string[], wall: number): void {
    for (const note of notes) {
      const checkpoint = readNote(note)?.checkpoint;
      const journal = checkpoint === undefined ? null : journalOf(checkpoint.origin);
      if (checkpoint === undefined || journal === null) continue;
      this.signed[journal].push({ checkpoint, note, publicKey: this.#named?.publicKey ?? '', wall });
      if (journal === 'workshop') this.#unsigned = 0;
    }
  }
}

/** Origin of one journal's heads: whose record, which realm, which journal. */
export const originOf = (id: string, realm: string, journal: JournalName): string => `potwatch/${id}/${realm}/${journal}`;

const journalOf = (origin: string): JournalName | null => {
  const last = origin.split('/').at(-1);
  return last === 'bench' || last === 'workshop' ? last : null;
};
