import { setImmediate } from 'node:timers/promises';
import { keyLine } from '#lib/record/note';
import type { JournalLine } from '#lib/record/journal';
import { chainText, PARTS, sumsText } from '#lib/record/bundle/layout';
import type { ChainRow } from '#lib/record/bundle/layout';
import { sealedNote, sealOrigin } from '#lib/record/bundle/sealed';
import type { Sealer } from '#lib/record/bundle/sealed';
import { EMPTY } from '#lib/record/seal';
import { publicKeyOf } from '../store/ed25519';
import type { SignedHead } from '../store/proof-fold';
import type { Store } from '../store/store';
import { hashOf, NATIVE } from '../store/sums';
import { readmeText } from './readme';
import { VERIFIER } from './verifier';

/** What a bundle is made of: parts by their names, in the order they are packed in. */
export type Parts = ReadonlyMap<string, Uint8Array>;

interface Bundled {
  readonly mark: string;
  /** All lines of the batch and of its bars, in order. */
  readonly lines: readonly JournalLine[];
  /** The batch for people to read, as one page of HTML. */
  readonly page: string;
}

type From = Pick<Store, 'bench' | 'blobs' | 'proof'>;

/** Lines read at once; between two the bench has its turn. */
const PAGE = 500;
/** What an entry may name stored bytes by. */
const HASH = /"([0-9a-f]{64})"/g;

/**
 * Everything a stranger needs to check one batch; `null` while no signed head has all its lines in it. Throws `StoreProblem` where a line or
 * stored bytes are not what was written. Touches no file: what is not read whole is not handed out. A head of an older key cannot be sealed
 * under: the newest is taken then.
 */
export const gatherBundle = async (store: From, { mark, lines, page }: Bundled, sealer: Sealer): Promise<Parts | null> => {
  const [first, last] = [lines[0], lines.at(-1)];
  const covering = last === undefined ? null : store.proof.covering('bench', last.seq);
  const heads = covering === null ? [] : [covering, store.proof.newest('bench') ?? covering];
  const after = heads.find((head) => bytesOf(head).every((byte, at) => byte === sealer.publicKey[at])) ?? null;
  if (first === undefined || after === null) return null;
  const before = store.proof.before('bench', first.seq);
  const parts = new Map<string, Uint8Array>();
  const put = (name: string, text: string): void => void parts.set(name, new TextEncoder().encode(text));
  put(PARTS.readme, readmeText(mark, after.checkpoint));
  put(PARTS.page, page);
  const entries = lines.filter(({ withdrawn }) => withdrawn !== true);
  put(PARTS.entries, entries.map(({ text }) => `${text}\n`).join(''));
  put(PARTS.chain, chainText({ start: before?.checkpoint ?? EMPTY, rows: await rowsBetween(store, before, after, lines) }));
  if (before !== null) put(PARTS.before, before.note);
  put(PARTS.after, after.note);
  const { origin } = after.checkpoint;
  const sealKey = `${keyLine(sealOrigin(origin), sealer.publicKey)}\n`;
  put(PARTS.keys, [...new Set([...[after, ...(before === null ? [] : [before])].map(keyOf), sealKey])].join(''));
  put(PARTS.pem, publicKeyOf(bytesOf(after)).export({ type: 'spki', format: 'pem' }).toString());
  put(PARTS.verifier, VERIFIER);
  for (const [name, bytes] of await blobsOf(store, lines)) parts.set(`${PARTS.blobs}${name}`, bytes);
  const stamp = store.proof.stampOf(NATIVE.ofText(after.note));
  const token = stamp === null ? null : await store.blobs.get(stamp.token);
  if (token !== null) parts.set(PARTS.stamp, token);
  const sums = sumsText([...parts].map(([name, bytes]) => [name, hashOf(bytes)]));
  put(PARTS.sums, sums);
  put(PARTS.seal, sealedNote(origin, entries.length, sums, sealer));
  return parts;
};

const bytesOf = ({ publicKey }: SignedHead): Uint8Array => new Uint8Array(Buffer.from(publicKey, 'base64'));
const keyOf = (head: SignedHead): string => `${keyLine(head.checkpoint.origin, bytesOf(head))}\n`;

const rowsBetween = async (
  { bench }: Pick<Store, 'bench'>,
  before: SignedHead | null,
  after: SignedHead,
  own: readonly JournalLine[],
): Promise<readonly ChainRow[]> => {
  const whats = new Map(own.map(({ seq, withdrawn }) => [seq, withdrawn === true ? 'withdrawn' : 'own'] as const));
  const rows: ChainRow[] = [];
  const end = after.checkpoint.seq;
  for (let at = before?.checkpoint.seq ?? 0; at < end;) {
    const page = await bench.lines(at, Math.min(PAGE, end - at));
    if (page.length === 0) break;
    for (const { seq, leaf, link } of page) rows.push({ seq, leaf, link, what: whats.get(seq) ?? 'other' });
    at = page.at(-1)?.seq ?? end;
    await setImmediate();
  }
  return rows;
};

/** Stored bytes that entries of the batch name; pruned ones are not there any more. */
const blobsOf = async ({ blobs }: Pick<Store, 'blobs'>, lines: readonly JournalLine[]): Promise<ReadonlyMap<string, Uint8Array>> => {
  const named = new Set(lines.flatMap(({ text }) => [...text.matchAll(HASH)].map(([, sha256 = '']) => sha256)));
  const found = new Map<string, Uint8Array>();
  for (const sha256 of named) {
    const bytes = await blobs.get(sha256);
    if (bytes !== null) found.set(sha256, bytes);
    await setImmediate();
  }
  return found;
};
