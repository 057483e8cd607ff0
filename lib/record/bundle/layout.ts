import type { Head } from '../seal';

/** Names of the parts of a bundle. The format is told in its README.txt, for whoever has only the file. */
export const PARTS = {
  readme: 'README.txt',
  page: 'record.html',
  entries: 'entries.jsonl',
  chain: 'chain.txt',
  before: 'head-before.txt',
  after: 'head-after.txt',
  keys: 'key.txt',
  pem: 'key.pem',
  verifier: 'verify.py',
  stamp: 'stamp.tsr',
  sums: 'sums.txt',
  seal: 'seal.txt',
  blobs: 'blobs/',
} as const;

/** `own`: a line of this batch, whose text stands in `entries.jsonl`. `withdrawn`: one whose text is gone. `other`: of something else. */
export type What = 'own' | 'other' | 'withdrawn';

/** A line of the journal as the bundle has it: its leaf and link, and whose it is. */
export interface ChainRow {
  readonly seq: number;
  readonly leaf: string;
  readonly link: string;
  readonly what: What;
}

export interface ChainFile {
  /** Where the piece of chain begins: the link of the line before its first. */
  readonly start: Head;
  readonly rows: readonly ChainRow[];
}

/** One row each: number, leaf, link, what; the first row says where the piece begins. */
export const chainText = ({ start, rows }: ChainFile): string =>
  [`${start.seq} - ${start.link} start`, ...rows.map(({ seq, leaf, link, what }) => `${seq} ${leaf} ${link} ${what}`), ''].join('\n');

const ROW = /^(0|[1-9]\d{0,15}) (-|[0-9a-f]{64}) ([0-9a-f]{64}) (start|own|other|withdrawn)$/;

/** Reads it back; the number of the row that is none (from 1), when one is. */
export const readChain = (text: string): ChainFile | number => {
  const found = text
    .replace(/\n$/, '')
    .split('\n')
    .map((row) => ROW.exec(row));
  const wrong = found.findIndex((row, at) => row === null || (row[4] === 'start') !== (at === 0) || (row[2] === '-') !== (at === 0));
  if (wrong >= 0) return wrong + 1;
  const rows = found.map((row) => {
    const [, seq = '', leaf = '', link = '', what = ''] = row ?? [];
    return { seq: Number(seq), leaf, link, what: what as What };
  });
  const [start = { seq: 0, link: '' }, ...rest] = rows;
  return { start: { seq: start.seq, link: start.link }, rows: rest };
};

/** SHA-256 (hex) and name of every other part, as `sha256sum -c` reads them. */
export const sumsText = (sums: readonly (readonly [name: string, sha256: string])[]): string =>
  sums.map(([name, sha256]) => `${sha256}  ${name}\n`).join('');

const SUM = /^([0-9a-f]{64}) {2}(.+)$/;

export const readSums = (text: string): ReadonlyMap<string, string> =>
  new Map(
    text.split('\n').flatMap((line) => {
      const [, sha256 = '', name = ''] = SUM.exec(line) ?? [];
      return name === '' ? [] : [[name, sha256] as const];
    }),
  );
