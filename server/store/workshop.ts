import type Database from 'better-sqlite3';
import { bytesToHex } from '@noble/hashes/utils.js';
import type { InstrumentConfig } from '#lib/measure/instrument';
import type { Append, JournalLine, Json } from '#lib/record/journal';
import { as } from '#lib/units/id';
import type { EntryId, InstrumentId, PersonId } from '#lib/units/id';
import type { Clock } from '#lib/units/time';
import type { Realm } from '#lib/work/batch/index';
import { EMPTY_SHELF, withPut } from '#lib/work/shelf/shelf';
import type { Put, Shelf } from '#lib/work/shelf/shelf';
import type { SqliteJournal } from './journal';
import { StoreProblem } from './problem';
import { openPeople } from './people';
import type { PeopleBodies, PersonRole } from './people';
import { ProofFold } from './proof-fold';
import type { ProofBodies, ProofKind } from './proof-fold';
import { openProof } from './proof-store';
import type { ProofParts, RecordProof } from './proof-store';
import { openShelf } from './shelf';
import type { KeptFile, WorkshopShelf } from './shelf';
import type { Standing } from './standing';
import type { ScreenSettings, WorkshopSettings } from './store';

/** What the lines of the workshop journal say, by kind. */
interface WorkshopBodies extends PeopleBodies, ProofBodies {
  'instrument-bound': { readonly instrument: InstrumentConfig };
  'instrument-unbound': { readonly instrument: InstrumentId };
  'screen-set': ScreenSettings;
  'practice-left': Readonly<Record<never, never>>;
  put: Put;
  'file-kept': KeptFile;
}
type WorkshopKind = keyof WorkshopBodies;
type WorkshopEntry = {
  [K in WorkshopKind]: {
    readonly id: EntryId;
    readonly kind: K;
    readonly v: 1;
    readonly realm: Realm;
    readonly by: PersonId;
    readonly wall: number;
    readonly offsetMin: number;
    readonly body: WorkshopBodies[K];
  };
}[WorkshopKind];

interface WorkshopState {
  readonly instruments: ReadonlyMap<InstrumentId, InstrumentConfig>;
  readonly people: ReadonlyMap<PersonId, PersonRole>;
  readonly screen: ScreenSettings;
  readonly practiceLeft: number | null;
  readonly shelf: Shelf;
  readonly files: ReadonlyMap<string, KeptFile>;
}

const NOTHING: WorkshopState = {
  instruments: new Map(),
  people: new Map(),
  screen: { mass: 'g', temperature: 'C' },
  practiceLeft: null,
  shelf: EMPTY_SHELF,
  files: new Map(),
};

type Evolve<K extends WorkshopKind> = (state: WorkshopState, body: WorkshopBodies[K], wall: number, by: PersonId) => WorkshopState;
/** What is about proof is folded beside it, by `ProofFold`. */
const EVOLVE: { readonly [K in Exclude<WorkshopKind, ProofKind>]: Evolve<K> } = {
  'instrument-bound': (state, { instrument }) => ({ ...state, instruments: new Map(state.instruments).set(instrument.id, instrument) }),
  'instrument-unbound': (state, { instrument }) => ({
    ...state,
    instruments: new Map([...state.instruments].filter(([id]) => id !== instrument)),
  }),
  'person-named': (state, { person, role }) => ({ ...state, people: new Map(state.people).set(person, role ?? 'maker') }),
  'name-changed': (state) => state,
  'name-erased': (state) => state,
  'pin-changed': (state) => state,
  'screen-set': (state, { mass, temperature }) => ({ ...state, screen: { mass, temperature } }),
  'practice-left': (state, _, wall) => ({ ...state, practiceLeft: wall }),
  put: (state, put, wall, by) => ({ ...state, shelf: withPut(state.shelf, put, by, wall) }),
  'file-kept': (state, file) => ({ ...state, files: new Map(state.files).set(file.sha256, file) }),
};

/** Lines of a kind this program does not know are kept and skipped. */
const evolve = (state: WorkshopState, entry: WorkshopEntry): WorkshopState => {
  if (!Object.hasOwn(EVOLVE, entry.kind)) return state;
  const apply = EVOLVE[entry.kind as keyof typeof EVOLVE] as Evolve<never>;
  return apply(state, entry.body as never, entry.wall, entry.by);
};

export interface WorkshopParts {
  readonly db: Database.Database;
  readonly journal: SqliteJournal;
  readonly standing: Standing;
  readonly realm: Realm;
  readonly clock: Clock;
  readonly random: (bytes: number) => Uint8Array;
  readonly forget: ProofParts['forget'];
}

/** Lines read at once while folding. */
const PAGE = 500;
const ID_BYTES = 12;

interface WorkshopJournal {
  readonly settings: WorkshopSettings;
  readonly shelf: WorkshopShelf;
  readonly proof: RecordProof;
}

/** What the workshop journal says: Setup's own memory, whose names come from their table, the shelf, and what proves both journals. */
export const openWorkshopJournal = (parts: WorkshopParts): WorkshopJournal => {
  const { db, journal, standing, realm, clock, random, forget } = parts;
  const fold = new ProofFold();
  let state = folded(journal, fold);
  const newId = (): string => bytesToHex(random(ID_BYTES));
  const write = async <K extends WorkshopKind>(
    kind: K,
    body: WorkshopBodies[K],
    by: PersonId,
    extra: () => void = () => undefined,
    blobs: Append['blobs'] = [],
  ): Promise<void> => {
    const id = as<EntryId>(newId());
    const entry = { id, kind, v: 1, realm, by, wall: clock.wall(), offsetMin: clock.offsetMinutes(), body };
    // What a form left out is not written as "undefined".
    const value = JSON.parse(JSON.stringify(entry)) as Json;
    journal.appendWith({ batch: null, entries: [{ id, batch: null, version: null, kind, value }], intent: null, blobs }, extra);
    state = evolve(state, entry as unknown as WorkshopEntry);
    fold.take(value);
  };

  const shelf = openShelf({
    shelf: () => state.shelf,
    files: () => state.files,
    writePut: (body, by) => write('put', body, by),
    writeFile: (body, by, bytes) => write('file-kept', body, by, undefined, [{ sha256: body.sha256, kind: 'file', bytes }]),
  });
  const settings: WorkshopSettings = {
    instruments: () => [...state.instruments.values()],
    bindInstrument: (config, by) => write('instrument-bound', { instrument: config }, by),
    unbindInstrument: (id, by) => write('instrument-unbound', { instrument: id }, by),
    ...openPeople({ db, standing, newId, known: () => state.people, write: ({ kind, body }, by, beside) => write(kind, body, by, beside) }),
    screen: () => state.screen,
    setScreen: (screen, by) => write('screen-set', screen, by),
    practiceLeft: () => state.practiceLeft,
    leavePractice: (by) => write('practice-left', {}, by),
  };
  const proof = openProof({
    db,
    standing,
    fold,
    forget,
    write: ({ kind, body }, by, beside, blobs) => write(kind, body, by, beside, blobs),
  });
  return { settings, shelf, proof };
};

const folded = (journal: SqliteJournal, proof: ProofFold): WorkshopState => {
  let state = NOTHING;
  for (let after = 0; ;) {
    let page: readonly JournalLine[];
    try {
      page = journal.linesNow(after, PAGE);
    } catch (cause) {
      // Only in a damaged file, which nothing can be written to: what stands before the damage is shown.
      if (cause instanceof StoreProblem) return state;
      throw cause;
    }
    for (const line of page) {
      const entry = JSON.parse(line.text) as WorkshopEntry;
      state = evolve(state, entry);
      proof.take(entry);
    }
    const last = page.at(-1);
    if (last === undefined) return state;
    after = last.seq;
  }
};
