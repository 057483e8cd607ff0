import Database from 'better-sqlite3';
import { readFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { BatchFind } from '#lib/protocol/find';
import { as } from '#lib/units/id';
import type { Entry } from '#lib/work/batch/index';
import { derivedBatches } from '#server/store/batches';
import { finish, inspect } from '#server/store/check';
import { openForReading } from '#server/store/file';
import { openStore } from '#server/store/open';
import { BATCHES } from '#tests/browser/support/paper-batches';
import type { BatchName } from '#tests/browser/support/paper-batches';
import { appRig } from '#tests/support/app-rig';
import type { AppRig } from '#tests/support/app-rig';
import { STILL, KeptLog } from '#tests/support/store-rig';

const DAY = 86_400_000;
const FIRST = Date.UTC(2026, 3, 14, 11, 2);

/** The same batch under another id, mark and day. */
const as0 = (name: BatchName, mark: string, day: number): readonly Entry[] =>
  BATCHES[name]().map((entry) => {
    const own = { ...entry, realm: 'practice', batch: as(mark), id: as(`${mark}-${entry.version}`), wall: entry.wall + day * DAY } as Entry;
    return own.kind === 'batch-started' ? { ...own, body: { ...own.body, mark } } : own;
  });

const noted = (batch: string, version: number, text: string): Entry =>
  ({ ...as0('begun', batch, 0)[0], kind: 'noted', version, id: `${batch}-${version}`, body: { text } }) as unknown as Entry;

/** Everything that is derived, as it stands in the file. */
const derived = (file: string): unknown => {
  const db = openForReading(file);
  const tables = ['batch_rows', 'batch_index', 'scale_checks'].map((table) => db.prepare(`select * from ${table} order by 1`).all());
  const search = db.prepare('select rowid, * from batch_search order by rowid').all();
  db.close();
  return [...tables, search];
};

describe('the list of batches, searched and narrowed', () => {
  let rig: AppRig;
  beforeEach(async () => {
    rig = await appRig('practice');
    await rig.enter(as0('eventful', '26-11', 0));
    await rig.enter(as0('poured', '26-12', 1));
    await rig.enter(as0('stopped', '26-13', 2));
    const begun = as0('begun', '26-14', 3);
    await rig.enter(begun);
    await rig.enter([noted('26-14', begun.length + 1, 'Černá stirred it; “smells of meadow”, 3 drops')]);
  });
  afterEach(() => rig.close());
  const marks = async (find: BatchFind, batches = rig.store.batches): Promise<readonly string[]> =>
    (await batches.list({ before: null, limit: 50, find })).batches.map(({ mark }) => mark);

  it.each<[string, BatchFind, readonly string[]]>([
    ['a word of a note', { words: 'meadow' }, ['26-14']],
    ['its letters without their marks', { words: 'cerna' }, ['26-14']],
    ['the beginning of one', { words: 'mead' }, ['26-14']],
    ['a reason somebody gave', { words: 'glass pot' }, ['26-13']],
    ['a lot', { words: 'CO 26-07' }, ['26-14', '26-13', '26-11']],
    // "co" begins coconut and 03 stands in the lot of the olive oil.
    ['a lot that is of nothing', { words: 'co 26-03' }, []],
    ['half a number', { words: '26-1' }, []],
    ['words as they stand, in quotes', { words: '“smells of meadow”, cerna' }, ['26-14']],
    ['words in quotes that stand apart', { words: '"meadow smells"' }, []],
    ['a material and a note together', { words: 'olive power' }, ['26-11']],
    ['a mark', { words: '26-12' }, ['26-12']],
    ['a formula and what is in it', { words: 'alder coco' }, ['26-14', '26-13', '26-12', '26-11']],
    ['what is nowhere', { words: 'kohlrabi' }, []],
    ['what reads like an expression', { words: 'olive" OR (notes:*' }, []],
    ['signs alone, as nothing', { words: '"*)' }, ['26-14', '26-13', '26-12', '26-11']],
    ['days', { from: FIRST + DAY, to: FIRST + 3 * DAY }, ['26-13', '26-12']],
    ['over-pours', { deviation: 'over-pour' }, ['26-11']],
    ['whatever went otherwise', { deviation: 'any' }, ['26-11']],
    ['weights by hand, of a formula', { deviation: 'by-hand', formula: 'Alder & oat' }, ['26-11']],
    ['another formula', { formula: 'Slate' }, []],
  ])('finds by %s', async (_, find, expected) => {
    expect(await marks(find)).toEqual(expected);
  });

  it('pages through what it finds, and says which formulas there are', async () => {
    const first = await rig.store.batches.list({ before: null, limit: 2, find: { words: 'alder' } });
    expect(first.next).toBe('26-13');
    const rest = await rig.store.batches.list({ before: first.next, limit: 2, find: { words: 'alder' } });
    expect([...first.batches, ...rest.batches].map(({ mark }) => mark)).toEqual(['26-14', '26-13', '26-12', '26-11']);
    expect(rest.next).toBeNull();
    expect(await (await rig.get('/api/batches/formulas')).json()).toEqual({ formulas: ['Alder & oat'] });
  });

  const asked = async (query: string): Promise<{ batches?: { mark: string }[]; error?: string }> =>
    (await (await rig.get(`/api/batches?${query}`)).json()) as { batches?: { mark: string }[]; error?: string };

  it('over HTTP, and refuses what is no search', async () => {
    expect((await asked(`words=${encodeURIComponent('olive power')}&deviation=any`)).batches?.map(({ mark }) => mark)).toEqual(['26-11']);
    for (const wrong of [`words=${'x'.repeat(121)}`, 'from=yesterday', 'deviation=most'])
      expect(await asked(wrong)).toMatchObject({ error: expect.any(String), todo: expect.any(String) });
  });

  it('finds nothing by a note that was withdrawn, and nothing of it is left in the file', async () => {
    const entry = (await rig.store.bench.linesOf('26-14')).at(-1)?.text ?? '';
    await rig.store.proof.withdraw((JSON.parse(entry) as Entry).id, 'somebody asked', as('maker'));
    expect(await marks({ words: 'meadow' })).toEqual([]);
    expect(await marks({ words: '26-14' })).toEqual(['26-14']);
    expect(readFileSync(rig.store.file).includes('meadow')).toBe(false);
    const before = derived(rig.store.file);
    await rig.store.rebuild();
    expect(derived(rig.store.file)).toEqual(before);
  });

  it('rebuilt from the entries everything derived is what was committed with them', async () => {
    const before = derived(rig.store.file);
    expect(JSON.stringify(before)).toContain('meadow');
    await rig.store.rebuild();
    expect(derived(rig.store.file)).toEqual(before);
    expect(rig.store.checks()).toEqual({ 'scale-main': '26-11-2' });
  });

  it('from the lines alone, as of a damaged file, is the same', async () => {
    const db = openForReading(rig.store.file);
    const alone = derivedBatches(finish(inspect(db, null, false)).rows.batches);
    db.close();
    for (const find of [{ words: 'meadow' }, { words: 'olive power' }, { deviation: 'any' }, { from: FIRST + DAY }] as const)
      expect(await marks(find, alone)).toEqual(await marks(find));
    expect(await alone.formulas()).toEqual(await rig.store.batches.formulas());
  });

  it.each([
    ['another text', `update batch_search set notes = 'made up' where rowid = 1`],
    ['a row that is gone', 'delete from batch_index where start_seq = 1'],
    ['another check of a scale', `update scale_checks set entry = 'none'`],
    ['an index that does not hold together', `update batch_search_data set block = x'00' where id > 10`],
  ])('made anew at the start where the file holds %s, which is no damage of the record', async (_, act) => {
    const before = derived(rig.store.file);
    await rig.store.close();
    const db = new Database(rig.store.file).unsafeMode();
    db.exec(act);
    db.close();
    const log = new KeptLog();
    const store = await openStore({ dir: rig.dir, realm: 'practice', clock: STILL, log });
    expect(store.health()).toMatchObject({ ok: true });
    expect(log.said.join()).toContain('replayed');
    expect(derived(store.file)).toEqual(before);
    await store.close();
  });
});
