import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import { keyLine, signedNote } from '#lib/record/note';
import type { Sealer } from '#lib/record/bundle/sealed';
import type { Checkpoint } from '#lib/record/note';
import type { Json } from '#lib/record/journal';
import { base64 } from '#lib/units/base64';
import { as } from '#lib/units/id';
import type { PersonId } from '#lib/units/id';
import type { Clock } from '#lib/units/time';
import type { JournalName } from '../store/tables';
import { originOf } from '../store/proof-fold';
import type { Named } from '../store/proof-fold';
import type { Store, StoreLog } from '../store/store';
import { hashOf, NATIVE } from '../store/sums';
import { openKey } from './key';
import type { RecordKey } from './key';
import { askStamp } from './stamp';

/** Signs the heads of one record as it grows, and has them stamped where a person asked for that. */
export interface Keeper {
  /** Signs what no head has in it yet. Never rejects: a record that cannot be written has nothing new. */
  sign(): Promise<void>;
  /** Asks for a stamp of the newest head now; `null`: it is kept, else why not. */
  stamp(): Promise<string | null>;
  /** Public keys of both journals' heads, each with its name in one line; `null` while there is no key. */
  keys(): Readonly<Record<JournalName, string>> | null;
  /** Seals bundles; `null` while there is no key. */
  sealer(): Sealer | null;
  /** Why heads are not signed, or not stamped, just now. */
  trouble(): { readonly signing: string | null; readonly stamping: string | null };
  /** Resolves when nothing is being signed or stamped any more. */
  idle(): Promise<void>;
  stop(): Promise<void>;
}

interface KeeperParts {
  readonly store: Store;
  readonly dir: string;
  readonly clock: Clock;
  readonly log: StoreLog;
}

/** The program itself, in lines that no person asked for. */
export const PROGRAM = as<PersonId>('program');
const DAY_MS = 24 * 3_600_000;
/** How often it is looked whether a day has passed. */
export const LOOK_EVERY_MS = 3_600_000;
const ID_BYTES = 8;
const JOURNALS = ['bench', 'workshop'] as const;

/** Names the record at its first start, goes on under another name after a copy was put back, and signs what is new. */
export const startKeeper = async (parts: KeeperParts): Promise<Keeper> => {
  const { store, log } = parts;
  let signing: string | null = null;
  let stamping: string | null = null;
  let named = false;
  const over = new AbortController();
  let busy: Promise<void> = Promise.resolve();
  const key = keyOf(parts, (why) => (signing = why));
  const writable = (): boolean => key !== null && store.health().ok;

  const signNow = async (): Promise<void> => {
    if (key === null || !writable()) return;
    try {
      if (!named) await nameIfNew(parts, key);
      named = true;
      const notes = notesDue(store, key);
      if (notes.length === 0) return;
      await store.proof.keepHeads(notes, PROGRAM);
      signing = null;
    } catch (cause) {
      signing = cause instanceof Error ? cause.message : String(cause);
      log.error({ err: cause }, 'the heads could not be signed');
    }
  };
  const stampNow = async (): Promise<string | null> => {
    const url = store.proof.stampUrl();
    const head = store.proof.newest('bench');
    if (url === null || head === null || !writable()) return null;
    const answer = await askStamp(url, head.note, over.signal);
    stamping = answer.ok ? null : answer.why;
    if (!answer.ok) log.warn({ url, why: answer.why }, 'a head was not stamped');
    else if (writable()) {
      const stamp = { note: answer.note, token: hashOf(answer.bytes), at: answer.at, url };
      await store.proof.keepStamp(stamp, answer.bytes, PROGRAM);
    }
    return stamping;
  };
  /** One after another: two signings at once would sign the same lines twice. */
  const inTurn = <T>(act: () => Promise<T>): Promise<T> => {
    const turn = busy.then(act);
    busy = turn.then(
      () => undefined,
      (cause: unknown) => log.error({ err: cause }, 'a head could not be kept'),
    );
    return turn;
  };
  const round = (): Promise<void> =>
    inTurn(async () => {
      const before = store.proof.newest('bench');
      await signNow();
      if (store.proof.newest('bench') !== before) await stampNow();
    });

  await inTurn(signNow);
  // Whoever waits for the commit is answered first.
  store.ended(() => setImmediate(() => void round()));
  const daily = setInterval(() => {
    if (isDue(store, parts.clock)) void round();
    // An authority that could not be reached is asked again.
    else if (lacksStamp(store)) void inTurn(stampNow);
  }, LOOK_EVERY_MS);
  daily.unref();
  return {
    sign: () => inTurn(signNow),
    stamp: () => inTurn(stampNow),
    keys: () => keysOf(store),
    sealer: () => key,
    trouble: () => ({ signing, stamping }),
    idle: () => busy,
    async stop() {
      clearInterval(daily);
      // An authority that does not answer must not hold up the end.
      over.abort();
      await busy;
    },
  };
};

const keyOf = ({ dir, store, log }: KeeperParts, said: (why: string) => void): RecordKey | null => {
  // A damaged record gets no key beside it: nothing on the disk is touched.
  if (!store.health().ok) return null;
  const file = join(dir, `${store.realm}.key`);
  try {
    const key = openKey(file);
    if (key.wasOpen) log.warn({ file }, 'others could read the key; now only this user can');
    return key;
  } catch (cause) {
    said(`The key ${file} cannot be read (${cause instanceof Error ? cause.message : String(cause)}). Heads are not signed.`);
    log.error({ err: cause, file }, 'the key cannot be read; heads are not signed');
    return null;
  }
};

const headNow = (store: Store, journal: JournalName, id: string): Checkpoint => ({
  origin: originOf(id, store.realm, journal),
  seq: store[journal].seq(),
  link: store[journal].link(),
});

/**
 * A record has one name for as long as it is one record. A copy that was put back, or one that comes with another key, goes on under a
 * new name whose first line in each journal names the old heads: the lines after it are not those that the old record may have had.
 */
const nameIfNew = async (parts: KeeperParts, key: RecordKey): Promise<void> => {
  const { store, clock, log } = parts;
  const before = store.proof.named();
  const publicKey = base64(key.publicKey);
  const goesOn = before !== null && before.publicKey === publicKey && !store.copied;
  if (goesOn) return;
  const id = randomBytes(ID_BYTES).toString('hex');
  const from = before === null ? null : { bench: headNow(store, 'bench', before.id), workshop: headNow(store, 'workshop', before.id) };
  const named: Named = { id, publicKey, ...(from === null ? {} : { from }) };
  if (from !== null) {
    log.warn({ from }, 'the record goes on from a copy, under another name');
    const entry = randomBytes(ID_BYTES).toString('hex');
    const head = { id: entry, kind: 'journal-named', v: 1, realm: store.realm, by: PROGRAM, wall: clock.wall() };
    const value = { ...head, offsetMin: clock.offsetMinutes(), body: named } as unknown as Json;
    const line = { id: entry, batch: null, version: null, kind: 'journal-named', value };
    await store.bench.append({ batch: null, entries: [line], intent: null, blobs: [] });
  }
  await store.proof.name(named, PROGRAM);
};

const notesDue = (store: Store, key: RecordKey): readonly string[] => {
  const named = store.proof.named();
  if (named === null) return [];
  const due: Readonly<Record<JournalName, boolean>> = {
    bench: store.bench.seq() > (store.proof.newest('bench')?.checkpoint.seq ?? 0),
    workshop: store.proof.unsigned() > 0,
  };
  return JOURNALS.filter((journal) => due[journal]).map((journal) =>
    signedNote(headNow(store, journal, named.id), key.publicKey, (text) => key.sign(text)),
  );
};

const isDue = (store: Store, clock: Clock): boolean => {
  const newest = Math.max(...JOURNALS.map((journal) => store.proof.newest(journal)?.wall ?? 0));
  return clock.wall() - newest >= DAY_MS;
};

const lacksStamp = ({ proof }: Store): boolean => {
  const head = proof.newest('bench');
  return proof.stampUrl() !== null && head !== null && proof.stampOf(NATIVE.ofText(head.note)) === null;
};

const keysOf = (store: Store): Readonly<Record<JournalName, string>> | null => {
  const named = store.proof.named();
  if (named === null) return null;
  const bytes = new Uint8Array(Buffer.from(named.publicKey, 'base64'));
  const line = (journal: JournalName): string => keyLine(originOf(named.id, store.realm, journal), bytes);
  return { bench: line('bench'), workshop: line('workshop') };
};
