import * as z from 'zod/mini';
import type { PrintedHead } from '#lib/record/printed';

/** A signed head: as it is printed, and the note itself (https://c2sp.org/signed-note) to be kept elsewhere. */
export interface HeadPage extends PrintedHead {
  readonly note: string;
  /** When it was signed, by this machine's clock. */
  readonly wall: number;
  readonly stamp: StampPage | null;
}

/** An authority's stamp on the note. */
interface StampPage {
  /** By the authority's clock, ISO 8601, UTC. */
  readonly at: string;
  readonly url: string;
  /** SHA-256 of its answer, hex. */
  readonly token: string;
}

/** GET /api/proof */
export interface ProofPage {
  readonly bench: HeadPage | null;
  readonly workshop: HeadPage | null;
  /** Public keys in one line each; `null` while there is none. */
  readonly keys: { readonly bench: string; readonly workshop: string } | null;
  /** The heads of the record that this one goes on from; `null`: from none. */
  readonly from: { readonly bench: PrintedHead; readonly workshop: PrintedHead } | null;
  /** Notes whose text was withdrawn. */
  readonly withdrawn: number;
  /** Where stamps are asked for; `null`: nowhere. */
  readonly stampUrl: string | null;
  /** Why heads are not signed or stamped just now. */
  readonly trouble: { readonly signing: string | null; readonly stamping: string | null };
  /** What happened, what is kept and what to do, when nothing can be written. */
  readonly readOnly: string | null;
  /** Where the record is damaged, in plain sentences; the first twenty places. */
  readonly damage: readonly string[];
}

/** GET /api/proof/batch/:id */
export interface BatchProof {
  /** First signed head that has all lines of the batch in it; `null` while there is none. */
  readonly head: HeadPage | null;
  /** Lines of the batch whose text was withdrawn. */
  readonly withdrawn: number;
}

/** POST /api/proof/verify begins a check, or joins the one under way; GET tells how far it is. A large record takes its time. */
export type VerifyState = { readonly state: 'none' | 'running' } | ({ readonly state: 'done' } & VerifyAnswer);

/** Everything was read and hashed again. */
export interface VerifyAnswer {
  readonly ok: boolean;
  /** Lines of both journals. */
  readonly lines: number;
  readonly withdrawn: number;
  /** What is wrong and exactly where, in plain sentences. */
  readonly findings: readonly string[];
}

const LONGEST_URL = 300;

/** POST /api/proof/stamping */
export const stampingAsk = z.object({ url: z.nullable(z.string().check(z.maxLength(LONGEST_URL))) });

/** POST /api/proof/batch/:id/withdraw: which version of the batch is the note, and why it goes. */
export const withdrawAsk = z.object({
  version: z.int().check(z.gte(1)),
  why: z.string().check(z.trim(), z.minLength(1), z.maxLength(300)),
});
