import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pastOf } from '#hardware/practice/history/history';
import type { HistoryPage } from '#lib/protocol/history';
import { appRig } from '#tests/support/app-rig';
import type { AppRig } from '#tests/support/app-rig';

describe('what finished batches add to a picture of many', () => {
  let rig: AppRig;
  beforeAll(async () => {
    rig = await appRig('practice');
    for (const { entries } of pastOf({ seed: 2, batches: 6, realm: 'practice', from: Date.UTC(2026, 0, 5), formulas: 2, waited: [3, 5] }))
      await rig.enter(entries);
    // One that is still under way adds nothing.
    const [unfinished] = pastOf({ seed: 3, batches: 1, realm: 'practice', from: Date.UTC(2026, 1, 5), waited: [3, 5] });
    await rig.enter(unfinished?.entries.slice(0, 20) ?? []);
  });
  afterAll(() => rig.close());
  const asked = async (query: string): Promise<HistoryPage> => (await (await rig.get(`/api/history?${query}`)).json()) as HistoryPage;

  it('comes oldest first, each line in tolerances as its review has it', async () => {
    const page = await asked('limit=60');
    expect(page.batches.map(({ mark }) => mark)).toEqual(['26-1', '26-2', '26-3', '26-4', '26-5', '26-6']);
    expect(page.more).toBe(false);
    const [first] = page.batches;
    const review = (await (await rig.get(`/api/batches/${first?.batch}`)).json()) as { lines: { line: string; away: number }[] };
    expect(first?.lines.map(({ line, away }) => [line, away])).toEqual(review.lines.map(({ line, away }) => [line, away]));
    expect(page.scales).toMatchObject({ 'scale-main': 'big scale' });
  });

  it('narrows to a formula and to the newest, and refuses what is no number of batches', async () => {
    const all = await asked('');
    const formula = all.batches[0]?.formula ?? '';
    const some = await asked(`formula=${encodeURIComponent(formula)}`);
    expect(some.batches).toEqual(all.batches.filter((batch) => batch.formula === formula));
    const newest = await asked('limit=2');
    expect([newest.batches.map(({ mark }) => mark), newest.more]).toEqual([['26-5', '26-6'], true]);
    expect((await rig.get('/api/history?limit=1000')).status).toBe(400);
  });
});
