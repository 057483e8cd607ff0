import * as z from 'zod/mini';
import { LARGEST_PHOTO } from '#lib/protocol/afterwards';
import type { AfterwardsWant, PhotoAnswer } from '#lib/protocol/afterwards';
import type { IntentAnswer } from '#lib/protocol/intent';
import { ask, sendFile } from './api';
import type { Answer } from './api';

const SAID = z.looseObject({ ok: z.boolean() });
const PHOTO = z.looseObject({ sha256: z.string(), bytes: z.int() });

/** What is said of a batch from its page, and pictures. Nothing throws. */
export const afterwardsApi = {
  /** `intent`: made once for what is meant, so that a try repeated is one. */
  say: (batch: string, intent: string, want: AfterwardsWant): Promise<Answer<IntentAnswer>> =>
    ask(SAID, `/api/batches/${encodeURIComponent(batch)}/afterwards`, { intent, want }),
  sendPhoto: (file: File): Promise<Answer<PhotoAnswer>> => sendFile(PHOTO, '/api/photos', file),
  photoAddress: (sha256: string): string => `/api/photos/${sha256}`,
  largest: LARGEST_PHOTO,
} as const;
