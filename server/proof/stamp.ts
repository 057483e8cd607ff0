import { randomBytes } from 'node:crypto';
import { readStamp, stampRequest } from '#lib/record/stamp/time-stamp';
import { NATIVE } from '../store/sums';

/** An authority's answer to keep, or in plain words why there is none. */
export type Answer =
  | { readonly ok: true; readonly bytes: Uint8Array; readonly at: string; readonly note: string }
  | { readonly ok: false; readonly why: string };

const PATIENCE_MS = 10_000;
/** An answer with its certificates has a few thousand bytes. */
const LARGEST = 256 * 1024;
const NONCE_BYTES = 8;

const WORDS = {
  refused: 'The authority refused to stamp it.',
  unreadable: 'What came back is no time stamp.',
  other: 'What came back is the stamp of something else.',
} as const;

/** Asks a time-stamping authority (RFC 3161 over HTTP) about a note: only its SHA-256 leaves this machine. Never rejects; `over` ends it. */
export const askStamp = async (url: string, note: string, over: AbortSignal): Promise<Answer> => {
  const sha256 = NATIVE.ofText(note);
  const nonce = randomBytes(NONCE_BYTES).toString('hex');
  const bytes = await post(url, stampRequest(sha256, nonce), over);
  if (typeof bytes === 'string') return { ok: false, why: bytes };
  const read = readStamp(bytes, sha256, nonce);
  return read.ok ? { ok: true, bytes, at: read.at, note: sha256 } : { ok: false, why: WORDS[read.why] };
};

/** The answer's bytes, or why there are none. */
const post = async (url: string, query: Uint8Array, over: AbortSignal): Promise<Uint8Array | string> => {
  try {
    const answer = await fetch(url, {
      method: 'POST',
      headers: { 'content-type': 'application/timestamp-query', accept: 'application/timestamp-reply' },
      body: query as Uint8Array<ArrayBuffer>,
      // Where to ask was typed by a person; nobody else says so.
      redirect: 'error',
      signal: AbortSignal.any([AbortSignal.timeout(PATIENCE_MS), over]),
    });
    if (!answer.ok) return `The authority answered with ${answer.status}.`;
    if (Number(answer.headers.get('content-length') ?? 0) > LARGEST) return 'The answer is larger than any time stamp.';
    const bytes = new Uint8Array(await answer.arrayBuffer());
    return bytes.length > LARGEST ? 'The answer is larger than any time stamp.' : bytes;
  } catch (cause) {
    const reason = cause instanceof Error && cause.cause instanceof Error ? cause.cause.message : String(cause);
    return `The authority cannot be reached (${reason}).`;
  }
};
