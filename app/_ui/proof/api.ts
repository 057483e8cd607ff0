import * as z from 'zod/mini';
import type { BatchProof, ProofPage, VerifyState } from '#lib/protocol/proof';
import { ask } from '../api';
import type { Answer } from '../api';

const count = z.int().check(z.gte(0));
const head = z.looseObject({
  origin: z.string(),
  seq: count,
  link: z.string(),
  words: z.string(),
  wall: z.number(),
  stamp: z.nullable(z.looseObject({ at: z.string(), url: z.string() })),
});

/** The outline of each answer, as in `api`. */
const OUTLINES = {
  page: z.looseObject({
    bench: z.nullable(head),
    keys: z.nullable(z.looseObject({ bench: z.string() })),
    from: z.nullable(z.looseObject({ bench: z.looseObject({ seq: count, words: z.string() }) })),
    withdrawn: count,
    stampUrl: z.nullable(z.string()),
    trouble: z.looseObject({ signing: z.nullable(z.string()), stamping: z.nullable(z.string()) }),
    readOnly: z.nullable(z.string()),
    damage: z.array(z.string()),
  }),
  batch: z.looseObject({ head: z.nullable(head), withdrawn: count }),
  verified: z.union([
    z.looseObject({ state: z.enum(['none', 'running']) }),
    z.looseObject({ state: z.literal('done'), ok: z.boolean(), lines: count, withdrawn: count, findings: z.array(z.string()) }),
  ]),
};

const batchPath = (id: string): string => `/api/proof/batch/${encodeURIComponent(id)}`;

/** What proves the record. Nothing throws. */
export const proofApi = {
  page: (): Promise<Answer<ProofPage>> => ask(OUTLINES.page, '/api/proof'),
  batch: (id: string): Promise<Answer<BatchProof>> => ask(OUTLINES.batch, batchPath(id)),
  /** Has everything read and hashed again. A large record takes longer than an answer may. */
  verify: (): Promise<Answer<VerifyState>> => ask(OUTLINES.verified, '/api/proof/verify', {}),
  verifying: (): Promise<Answer<VerifyState>> => ask(OUTLINES.verified, '/api/proof/verify'),
  stampAt: (url: string | null): Promise<Answer<ProofPage>> => ask(OUTLINES.page, '/api/proof/stamping', { url }),
  withdraw: (id: string, version: number, why: string): Promise<Answer<BatchProof>> =>
    ask(OUTLINES.batch, `${batchPath(id)}/withdraw`, { version, why }),
  /** Files to be saved, and the drawn code. */
  note: '/api/proof/note',
  code: '/api/proof/code',
  batchNote: (id: string): string => `${batchPath(id)}/note`,
  batchCode: (id: string): string => `${batchPath(id)}/code`,
  bundle: (id: string): string => `/api/proof/bundle/${encodeURIComponent(id)}`,
} as const;
