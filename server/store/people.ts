import type Database from 'better-sqlite3';
import { as } from '#lib/units/id';
import type { PersonId } from '#lib/units/id';
import type { Standing } from './standing';
import { sumOf } from './sums';
import { prepare, query } from './tables';
import type { Prepared } from './tables';

/** `maker`: works here, and stands in entries. `buyer`: a person or a shop that bought bars, and stands in sales. */
export type PersonRole = 'maker' | 'buyer';

/** A name beside the id that stands in entries; `name` is `null` once erased. */
export interface Person {
  readonly id: PersonId;
  readonly role: PersonRole;
  readonly name: string | null;
  /** Whether switching to them asks for a PIN. */
  readonly pin: boolean;
}

/** A PIN as it is kept: salted and hashed, hex. */
export interface KeptPin {
  readonly salt: string;
  readonly hash: string;
}

/** Names and PINs, apart from every sealed line, because they may be erased. */
export interface People {
  /** Ids stand in entries; a name stands in a table of its own and can be erased. Returns the new person's id. */
  addPerson(name: string, by: PersonId, role?: PersonRole): Promise<PersonId>;
  /** Another name for the same id; the one before is overwritten, not kept. */
  renamePerson(person: PersonId, name: string, by: PersonId): Promise<void>;
  /** Erases the name and the PIN for good; entries keep the id. */
  eraseName(person: PersonId, by: PersonId): Promise<void>;
  /** `null` takes it away. */
  setPin(person: PersonId, pin: KeptPin | null, by: PersonId): Promise<void>;
  pinOf(person: PersonId): KeptPin | null;
  people(): readonly Person[];
}

/** What the journal says of people: never a name. */
export interface PeopleBodies {
  /** `role` is left out for a maker. */
  'person-named': { readonly person: PersonId; readonly role?: 'buyer' };
  'name-changed': { readonly person: PersonId };
  'name-erased': { readonly person: PersonId };
  'pin-changed': { readonly person: PersonId; readonly set: 'yes' | 'no' };
}

export type PeopleLine = { [K in keyof PeopleBodies]: { readonly kind: K; readonly body: PeopleBodies[K] } }[keyof PeopleBodies];

export interface PeopleParts {
  readonly db: Database.Database;
  readonly standing: Standing;
  readonly newId: () => string;
  readonly known: () => ReadonlyMap<PersonId, PersonRole>;
  /** One line, and what is written beside it in the same transaction. */
  readonly write: (line: PeopleLine, by: PersonId, beside: () => void) => Promise<void>;
}

export const openPeople = ({ db, standing, newId, known, write }: PeopleParts): People => {
  const tables = peopleTables(db);
  // The write-ahead log still holds the page as it was: copy it back and cut the log.
  const forget = (): void => void standing.write(() => db.pragma('wal_checkpoint(TRUNCATE)'));
  return {
    async addPerson(name, by, role = 'maker') {
      const person = as<PersonId>(newId());
      await write({ kind: 'person-named', body: role === 'buyer' ? { person, role } : { person } }, by, () =>
        keep(tables.put, person, name),
      );
      return person;
    },
    async renamePerson(person, name, by) {
      await write({ kind: 'name-changed', body: { person } }, by, () => keep(tables.rename, person, name));
      forget();
    },
    async eraseName(person, by) {
      await write({ kind: 'name-erased', body: { person } }, by, () => {
        tables.erase.run({ id: person });
        tables.erase.run({ id: pinRow(person) });
      });
      forget();
    },
    async setPin(person, pin, by) {
      await write({ kind: 'pin-changed', body: { person, set: pin === null ? 'no' : 'yes' } }, by, () => {
        tables.erase.run({ id: pinRow(person) });
        if (pin !== null) keep(tables.put, pinRow(person), `${pin.salt} ${pin.hash}`);
      });
      forget();
    },
    pinOf(person) {
      const [salt, hash] = standing.read(() => tables.one.get({ id: pinRow(person) }))?.name.split(' ') ?? [];
      return salt === undefined || hash === undefined ? null : { salt, hash };
    },
    people: () =>
      standing.read(() => {
        const names = new Map(tables.all.all({}).map(({ id, name }) => [id, name]));
        return [...known()].map(([id, role]) => ({ id, role, name: names.get(id) ?? null, pin: names.has(pinRow(id)) }));
      }),
  };
};

/** A PIN is a row of the same table: what may be erased lies in one place. No id of a person has a slash. */
const pinRow = (person: PersonId): string => `${person}/pin`;

type Keeping = Prepared<{ id: string; name: string; sum: string }, unknown>;
const keep = (statement: Keeping, id: string, name: string): void => {
  statement.run({ id, name, sum: sumOf(id, name) });
};

const peopleTables = (db: Database.Database) => ({
  all: prepare<object>(db)(() => query.selectFrom('people').select(['id', 'name'])),
  one: prepare<{ id: string }>(db)(({ id }) => query.selectFrom('people').select('name').where('id', '=', id)),
  put: prepare<{ id: string; name: string; sum: string }>(db)(({ id, name, sum }) => query.insertInto('people').values({ id, name, sum })),
  rename: prepare<{ id: string; name: string; sum: string }>(db)(({ id, name, sum }) =>
    query.updateTable('people').set({ name, sum }).where('id', '=', id),
  ),
  erase: prepare<{ id: string }>(db)(({ id }) => query.deleteFrom('people').where('id', '=', id)),
});
