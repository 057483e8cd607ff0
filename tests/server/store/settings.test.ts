import Database from 'better-sqlite3';
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { InstrumentConfig } from '#lib/measure/instrument';
import { as } from '#lib/units/id';
import type { InstrumentId, PersonId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import { openStore } from '#server/store/open';
import type { Store } from '#server/store/store';
import { storeRig } from '#tests/support/store-rig';
import type { Rig } from '#tests/support/store-rig';

const BY = as<PersonId>('person-1');
const scale = (id: string, path = `/dev/serial/by-id/${id}`): InstrumentConfig => ({
  kind: 'scale',
  id: as<InstrumentId>(id),
  role: 'main',
  name: 'big scale',
  path,
  shape: null,
  serial: { baudRate: 9600, frame: '8N1' },
  capacity: mg(6_000_000),
  division: null,
});

describe('workshop settings', () => {
  let rig: Rig;
  let store: Store;
  const restart = async (): Promise<void> => {
    await store.close();
    store = await openStore(rig.options);
  };
  beforeEach(async () => {
    rig = storeRig();
    store = await openStore(rig.options);
  });
  afterEach(async () => {
    await store.close();
    rig.remove();
  });

  it('starts with nothing bound, grams and degrees Celsius', () => {
    expect(store.settings.instruments()).toEqual([]);
    expect(store.settings.people()).toEqual([]);
    expect(store.settings.screen()).toEqual({ mass: 'g', temperature: 'C' });
    expect(store.settings.practiceLeft()).toBeNull();
  });

  it('binds, binds anew and unbinds instruments, and knows them after a restart', async () => {
    await store.settings.bindInstrument(scale('one'), BY);
    await store.settings.bindInstrument(scale('two'), BY);
    await store.settings.bindInstrument(scale('one', '/dev/other'), BY);
    expect(store.settings.instruments()).toEqual([scale('one', '/dev/other'), scale('two')]);
    await restart();
    expect(store.settings.instruments()).toEqual([scale('one', '/dev/other'), scale('two')]);
    await store.settings.unbindInstrument(as('one'), BY);
    await restart();
    expect(store.settings.instruments()).toEqual([scale('two')]);
  });

  it('takes a form that leaves a field undefined', async () => {
    await store.settings.bindInstrument({ ...scale('one'), note: undefined } as unknown as InstrumentConfig, BY);
    expect(store.settings.instruments()).toHaveLength(1);
  });

  it('keeps units and the leaving of practice', async () => {
    await store.settings.setScreen({ mass: 'lb', temperature: 'F' }, BY);
    await store.settings.leavePractice(BY);
    await restart();
    expect(store.settings.screen()).toEqual({ mass: 'lb', temperature: 'F' });
    expect(store.settings.practiceLeft()).toBe(1_760_000_000_000);
  });

  it('writes every change as a sealed line of the workshop journal, with realm, person and wall time', async () => {
    await store.settings.setScreen({ mass: 'oz', temperature: 'C' }, BY);
    const [line] = await store.workshop.lines(0, 10);
    expect(JSON.parse(line?.text ?? '')).toMatchObject({
      kind: 'screen-set',
      v: 1,
      realm: 'practice',
      by: 'person-1',
      wall: 1_760_000_000_000,
      offsetMin: 120,
      body: { mass: 'oz', temperature: 'C' },
    });
    expect(await store.verify()).toMatchObject({ ok: true });
  });

  it('erases a name for good: the id stays in the entries, the name nowhere on the disk', async () => {
    const name = 'Ottoline Quillfeather';
    const person = await store.settings.addPerson(name, BY);
    const other = await store.settings.addPerson('Ravi', BY);
    const ravi = { id: other, role: 'maker', name: 'Ravi', pin: false };
    expect(store.settings.people()).toEqual([{ id: person, role: 'maker', name, pin: false }, ravi]);
    await store.settings.setPin(person, { salt: 'ab', hash: 'cd' }, BY);
    expect(store.settings.people()[0]).toMatchObject({ pin: true });
    expect(store.settings.pinOf(person)).toEqual({ salt: 'ab', hash: 'cd' });
    await store.settings.eraseName(person, BY);
    expect(store.settings.people()).toEqual([{ id: person, role: 'maker', name: null, pin: false }, ravi]);
    expect(store.settings.pinOf(person)).toBeNull();
    for (const file of readdirSync(rig.dir)) expect(readFileSync(join(rig.dir, file)).includes(name), file).toBe(false);
    await restart();
    expect(store.settings.people()[0]).toEqual({ id: person, role: 'maker', name: null, pin: false });
    expect(await store.verify()).toMatchObject({ ok: true });
  });

  it('gives the same id another name, and keeps the one before nowhere', async () => {
    const before = 'Ottoline Quillfeather';
    const person = await store.settings.addPerson(before, BY, 'buyer');
    await store.settings.renamePerson(person, 'The corner shop', BY);
    await restart();
    expect(store.settings.people()).toEqual([{ id: person, role: 'buyer', name: 'The corner shop', pin: false }]);
    for (const file of readdirSync(rig.dir)) expect(readFileSync(join(rig.dir, file)).includes(before), file).toBe(false);
    expect(await store.verify()).toMatchObject({ ok: true });
  });

  it('B8: a limit changed behind its back opens read-only and names the line', async () => {
    await store.settings.bindInstrument(scale('one'), BY);
    await store.close();
    const db = new Database(rig.file);
    db.prepare(`update workshop_lines set text = replace(text, '6000000', '9000000')`).run();
    db.close();
    store = await openStore(rig.options);
    expect(store.health().readOnly).toContain('Line 1 of the workshop journal was changed after it was written');
    expect(store.settings.instruments()).toEqual([]);
  });
});
