import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { unzipSync } from 'fflate';
import { checkBundle } from '#lib/record/bundle/check';
import { keyLine, readCheckpoint, readNote } from '#lib/record/note';
import type { Checkpoint } from '#lib/record/note';
import { wordsOf } from '#lib/record/words';
import { ed25519 } from '../store/ed25519';
import { hashOf, NATIVE } from '../store/sums';
import { inWords } from './words';

const USAGE = `npm run verify -- FILE [--head FILE]... [--words "WORD WORD ..."]... [--key KEY]

Checks a batch's bundle by itself: no data folder, no server, no network.
  --head FILE   a head kept elsewhere since: a signed note, or its three lines as a printed code holds them
  --words W     the eight words of a head, as a label has them
  --key KEY     the public key as it was handed on before: name+id+key
Ends with 1 when anything is wrong, with 2 when the file cannot be read.`;

/** Larger than any bundle; a zip can claim to hold more than a machine has. */
const LARGEST = 1_000_000_000;

class NoBundle extends Error {}

const partsOf = (file: string): ReadonlyMap<string, Uint8Array> => {
  let zip: Uint8Array;
  try {
    zip = new Uint8Array(readFileSync(file));
  } catch (cause) {
    throw new NoBundle(`${file} cannot be read: ${(cause as Error).message}`);
  }
  try {
    let size = 0;
    const parts = unzipSync(zip, { filter: ({ originalSize }) => (size += originalSize) <= LARGEST });
    return new Map(Object.entries(parts));
  } catch {
    throw new NoBundle(`${file} is no bundle, or only a part of one: its download may have broken off.`);
  }
};

const headIn = (file: string): Checkpoint => {
  const text = readFileSync(file, 'utf8').replaceAll('\r\n', '\n');
  const head = readNote(text)?.checkpoint ?? readCheckpoint(text.endsWith('\n') ? text : `${text}\n`);
  if (head === null) throw new NoBundle(`${file} holds no head: origin, number of lines and link, in three lines.`);
  return head;
};

type Say = (line: string) => void;

/** What `npm run verify` does: says what it finds by `say`; returns how to end. Throws for what cannot be read. */
export const run = (argv: readonly string[], say: Say): number => {
  const options = {
    head: { type: 'string', multiple: true },
    words: { type: 'string', multiple: true },
    key: { type: 'string' },
    help: { type: 'boolean' },
  } as const;
  const { values, positionals } = parseArgs({ args: [...argv], options, allowPositionals: true });
  const [file, ...more] = positionals;
  if (values.help === true || file === undefined || more.length > 0) {
    say(USAGE);
    return values.help === true ? 0 : 2;
  }
  const heads = (values.head ?? []).map(headIn);
  const words = (values.words ?? []).map((one) =>
    one
      .toLowerCase()
      .replaceAll(/[^a-z]+/g, ' ')
      .trim(),
  );
  const report = checkBundle(partsOf(file), { ed25519, sha256: hashOf, sha: NATIVE }, { heads, words, key: values.key ?? null });
  const isGiven = values.key !== undefined && report.findings.every(({ on }) => on !== 'key');
  if (report.signer !== null) sayKey(report.signer, isGiven, say);
  for (const finding of report.findings) say(`WRONG  ${inWords(finding)}`);
  if (report.head !== null) {
    const { origin, seq, link } = report.head;
    say(`${report.entries} entries, ${report.withdrawn} withdrawn, up to line ${seq} of ${origin}`);
    say(`  head  ${wordsOf(link)}\n        ${link}`);
  }
  if (report.findings.length > 0) return 1;
  say('Nothing is wrong: these entries are what the signed head was made of.');
  if (report.met > 0)
    say(
      `The chain goes through ${report.met === 1 ? 'the kept head' : `all ${report.met} kept heads`}: up to there nothing was written anew.`,
    );
  else if (isGiven) say('Whoever holds the key could have written it all anew; only a head kept elsewhere (--head) shows that nobody did.');
  else for (const line of OWN_WORD) say(line);
  return 0;
};

const OWN_WORD = [
  'WARNING  It believed the bundle’s own key, named above. Anybody can make a key, write a whole bundle and sign it.',
  '         Compare that key with the one the workshop handed on before (--key), or a head kept elsewhere with this chain (--head, --words).',
] as const;

/** Which key was believed, so that it can be compared: its short id alone could be met by trying. */
const sayKey = ({ name, publicKey }: { readonly name: string; readonly publicKey: Uint8Array }, isGiven: boolean, say: Say): void => {
  say(`Key    ${isGiven ? 'as it was given' : 'believed as it stands in the bundle'}: ${name}`);
  say(`       fingerprint (SHA-256)  ${hashOf(publicKey).match(/.{8}/g)?.join(' ')}`);
  say(`       whole  ${keyLine(name, publicKey)}`);
};
