import { isSignedBy, keyOfLine, readNote } from '../note';
import type { Checkpoint, Ed25519, Note } from '../note';
import { labelsOf, parsed } from '../lines';
import { leafOf, PORTABLE } from '../seal';
import type { Sha256 } from '../seal';
import { ChainWalk } from '../verify';
import { wordsOf } from '../words';
import type { Break } from '../verify';
import { compareEntries } from './entries';
import type { EntryFinding } from './entries';
import { PARTS, readChain, readSums } from './layout';
import { sealFault } from './sealed';
import type { SealFault } from './sealed';
import type { ChainFile } from './layout';

/** What is wrong with a bundle. Parts are named as in the file. */
export type BundleFinding =
  | { readonly on: 'entries'; readonly found: EntryFinding }
  | { readonly on: 'chain'; readonly found: Break }
  /** `row` of the chain's part cannot be read, from 1; 0: the part is not there. */
  | { readonly on: 'chain-row'; readonly row: number }
  /** A head that cannot be read, is not signed by a key of the bundle, or is not where the piece of chain begins. */
  | { readonly on: 'head'; readonly part: string; readonly why: 'unreadable' | 'signature' | 'start' }
  /** Versions of one stream that no entry has. */
  | { readonly on: 'versions'; readonly stream: string; readonly missing: readonly number[] }
  | { readonly on: 'part'; readonly name: string; readonly why: 'changed' | 'missing' | 'unlisted' | 'misnamed' }
  /** A head kept elsewhere: another line stands there, it is another record's, or this piece does not reach it. */
  | { readonly on: 'kept'; readonly checkpoint: Checkpoint; readonly why: 'other-line' | 'other-record' | 'out-of-reach' }
  /** Words of a head, as a label has them, that no line of this piece has. */
  | { readonly on: 'words'; readonly words: string }
  | { readonly on: 'seal'; readonly why: SealFault }
  | { readonly on: 'key' };

interface BundleReport {
  /** The signed head behind the batch; `null` when it cannot be read. */
  readonly head: Checkpoint | null;
  /** The key that signed it; `null` when none of the bundle's did. */
  readonly signer: Key | null;
  readonly entries: number;
  readonly withdrawn: number;
  /** Kept heads that the piece of chain goes through. */
  readonly met: number;
  readonly findings: readonly BundleFinding[];
}

interface BundleTools {
  readonly ed25519: Ed25519;
  /** SHA-256 of bytes, hex. */
  readonly sha256: (bytes: Uint8Array) => string;
  readonly sha?: Sha256;
}

/** What somebody knows from elsewhere: heads on paper, a key handed on before. */
interface KnownElsewhere {
  readonly heads: readonly Checkpoint[];
  /** Heads in words. */
  readonly words?: readonly string[];
  /** A key line; `null`: the key in the bundle is believed. */
  readonly key: string | null;
}

type Parts = ReadonlyMap<string, Uint8Array>;

/** Checks a bundle by itself: no record, no clock, no network. Finds everything it can, and stops at nothing. */
export const checkBundle = (parts: Parts, tools: BundleTools, known: KnownElsewhere): BundleReport => {
  const sha = tools.sha ?? PORTABLE;
  const keys =
    textOf(parts, PARTS.keys)
      ?.split('\n')
      .flatMap((line) => keyOfLine(line) ?? []) ?? [];
  const [after, before] = [noteIn(parts, PARTS.after), noteIn(parts, PARTS.before)];
  const findings: BundleFinding[] = partFindings(parts, tools);
  for (const [part, note] of [
    [PARTS.after, after],
    [PARTS.before, before],
  ] as const) {
    if (note === null) findings.push({ on: 'head', part, why: 'unreadable' });
    else if (note !== 'none' && !keys.some((key) => isHeadBy(note, key, tools.ed25519)))
      findings.push({ on: 'head', part, why: 'signature' });
  }
  const head = after === null || after === 'none' ? null : after.checkpoint;
  const signer = after === null || after === 'none' ? undefined : keys.find((key) => isHeadBy(after, key, tools.ed25519));
  if (known.key !== null && !isSameKey(signer, keyOfLine(known.key))) findings.push({ on: 'key' });
  // Without a head that is signed there is no key to hold the seal against.
  const fault =
    head === null || signer === undefined
      ? null
      : sealFault(textOf(parts, PARTS.seal), textOf(parts, PARTS.sums) ?? '', { ...head, publicKey: signer.publicKey }, tools.ed25519);
  // Told last: what it is about may have been found by name.
  const sealed = fault === null ? [] : [{ on: 'seal', why: fault } as const];
  const chain = readChain(textOf(parts, PARTS.chain) ?? '');
  if (typeof chain === 'number') {
    findings.push({ on: 'chain-row', row: parts.has(PARTS.chain) ? chain : 0 });
    return { head, signer: signer ?? null, entries: 0, withdrawn: 0, met: 0, findings: [...findings, ...sealed] };
  }
  const starts = before !== null && before !== 'none' ? before.checkpoint : { seq: 0, link: '00'.repeat(32) };
  if (before !== null && (chain.start.seq !== starts.seq || chain.start.link !== starts.link))
    findings.push({ on: 'head', part: PARTS.before, why: 'start' });
  const { met, breaks, kept } = walkPiece(chain, head, known, sha);
  findings.push(...breaks, ...kept);
  const texts = linesOf(textOf(parts, PARTS.entries) ?? '');
  const own = chain.rows.filter(({ what }) => what === 'own');
  const withdrawn = chain.rows.filter(({ what }) => what === 'withdrawn').length;
  findings.push(
    ...compareEntries(
      texts.map((text) => leafOf(text, sha)),
      own,
    ).map((found) => ({ on: 'entries', found }) as const),
  );
  findings.push(...versionGaps(texts, withdrawn), ...sealed);
  return { head, signer: signer ?? null, entries: texts.length, withdrawn, met, findings };
};

type Key = NonNullable<ReturnType<typeof keyOfLine>>;

const isHeadBy = (note: Note, { name, publicKey }: Key, ed25519: Ed25519): boolean =>
  name === note.checkpoint.origin && isSignedBy(note, publicKey, ed25519);

/** That a key is listed says nothing: it has to be the one that signed. */
const isSameKey = (a: Key | undefined, b: Key | null): boolean =>
  a !== undefined && b !== null && a.name === b.name && a.publicKey.every((byte, at) => byte === b.publicKey[at]);

const textOf = (parts: Parts, name: string): string | null => {
  const bytes = parts.get(name);
  return bytes === undefined ? null : new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
};

/** `none`: it may be lacking, as before the first line of a record; `null`: it cannot be read. */
const noteIn = (parts: Parts, name: string): Note | 'none' | null => {
  const text = textOf(parts, name);
  return text === null ? (name === PARTS.before ? 'none' : null) : readNote(text);
};

const linesOf = (text: string): readonly string[] => (text === '' ? [] : text.replace(/\n$/, '').split('\n'));

const partFindings = (parts: Parts, { sha256 }: BundleTools): BundleFinding[] => {
  const sums = readSums(textOf(parts, PARTS.sums) ?? '');
  const found: BundleFinding[] = [];
  for (const [name, bytes] of parts) {
    const hash = sha256(bytes);
    if (name.startsWith(PARTS.blobs) && name.slice(PARTS.blobs.length) !== hash) found.push({ on: 'part', name, why: 'misnamed' });
    if (name === PARTS.sums || name === PARTS.seal) continue;
    const listed = sums.get(name);
    if (listed === undefined) found.push({ on: 'part', name, why: 'unlisted' });
    else if (listed !== hash) found.push({ on: 'part', name, why: 'changed' });
  }
  for (const name of [...sums.keys(), PARTS.sums]) if (!parts.has(name)) found.push({ on: 'part', name, why: 'missing' });
  return found;
};

/** Walks the leaves from where the piece begins to the signed head, past what was kept elsewhere. */
const walkPiece = (chain: ChainFile, head: Checkpoint | null, { heads, words = [] }: KnownElsewhere, sha: Sha256) => {
  const walk = new ChainWalk(head === null ? [] : [head], chain.start, sha);
  const links = new Map([[chain.start.seq, chain.start.link]]);
  for (const { seq, leaf, link } of chain.rows) {
    walk.take({ seq, text: '', leaf, link, withdrawn: true });
    links.set(seq, link);
  }
  const spoken = words.length === 0 ? null : new Set([...links.values()].map(wordsOf));
  const unsaid = words.filter((one) => spoken?.has(one) !== true).map((one) => ({ on: 'words', words: one }) as const);
  const other = heads.flatMap((checkpoint): BundleFinding[] => {
    const link = links.get(checkpoint.seq);
    if (head !== null && checkpoint.origin !== head.origin) return [{ on: 'kept', checkpoint, why: 'other-record' }];
    if (link === undefined) return [{ on: 'kept', checkpoint, why: 'out-of-reach' }];
    return link === checkpoint.link ? [] : [{ on: 'kept', checkpoint, why: 'other-line' }];
  });
  const breaks = walk.end().breaks.map((found) => ({ on: 'chain', found }) as const);
  const kept = [...other, ...unsaid];
  return { kept, breaks, met: heads.length + words.length - kept.length };
};

/** Who made the bundle says which lines are the batch's: one left out shows as a version that nobody has. */
const versionGaps = (texts: readonly string[], withdrawn: number): BundleFinding[] => {
  const streams = new Map<string, Set<number>>();
  for (const text of texts) {
    const labels = labelsOf(parsed(text));
    if (labels?.batch == null || labels.version === null) continue;
    streams.set(labels.batch, (streams.get(labels.batch) ?? new Set()).add(labels.version));
  }
  const gaps = [...streams]
    .map(([stream, versions]) => ({ stream, missing: gapsIn(versions) }))
    .filter(({ missing }) => missing.length > 0);
  // A withdrawn line has a version too, which nobody can read any more.
  const all = gaps.reduce((sum, { missing }) => sum + missing.length, 0);
  return all <= withdrawn ? [] : gaps.map(({ stream, missing }) => ({ on: 'versions', stream, missing }));
};

/** More are not listed: there is nothing like the record left. */
const MOST_GAPS = 1000;

const gapsIn = (versions: ReadonlySet<number>): readonly number[] => {
  const newest = Math.max(...versions);
  const gaps: number[] = [];
  for (let version = 1; version < newest && gaps.length < MOST_GAPS; version += 1) if (!versions.has(version)) gaps.push(version);
  return gaps;
};
