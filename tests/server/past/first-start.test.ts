import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setImmediate as otherTurns } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { monotonic, wall } from '#lib/units/time';
import { beginWithPast } from '#server/past/first-start';
import type { FirstStart } from '#server/past/first-start';
import { readHeads } from '#server/store/heads';
import { openStore } from '#server/store/open';
import { storeRig } from '#tests/support/store-rig';
import type { Rig } from '#tests/support/store-rig';

const NOW = Date.UTC(2026, 10, 28, 9);
const CLOCK = { now: () => monotonic(0), wall: () => wall(NOW), offsetMinutes: () => 60 };
const BATCHES = 2;

const apart = (dir: string): string => join(dir, 'practice.unfinished');

describe('the half-year of a first start', () => {
  let rig: Rig;
  beforeEach(() => (rig = storeRig()));
  afterEach(() => rig.remove());
  const asked = (dir: string, more: Partial<FirstStart> = {}): FirstStart => ({
    dir,
    clock: CLOCK,
    log: rig.log,
    seed: 41,
    batches: BATCHES,
    ...more,
  });
  const batchesIn = async (dir: string): Promise<number> => {
    const store = await openStore({ ...rig.options, dir, clock: CLOCK });
    const { batches } = await store.batches.list({ before: null, limit: 10 });
    const whole = await store.verify();
    await store.close();
    return whole.ok ? batches.length : Number.NaN;
  };
  it('lets others have their turn after each batch; killed then nothing of it counts, and the next start lays it out whole', async () => {
    const [dir, killed] = [join(rig.dir, 'runs'), join(rig.dir, 'killed')];
    mkdirSync(dir);
    const laid = { whole: false };
    const laying = beginWithPast(asked(dir)).finally(() => (laid.whole = true));
    const begun = (): boolean => {
      const heads = readHeads(join(apart(dir), 'practice.heads'));
      return typeof heads !== 'string' && heads.bench.seq > 0;
    };
    while (!laid.whole && !begun()) await otherTurns();
    // Every write is this thread's own: what stands on the disk now is what a kill in this moment would leave.
    cpSync(dir, killed, { recursive: true });
    expect(await laying).toBe(true);
    expect(readdirSync(killed)).toEqual(['practice.unfinished']);

    expect(await beginWithPast(asked(killed))).toBe(true);
    for (const each of [dir, killed]) {
      expect(readdirSync(each).toSorted()).toEqual(['practice.heads', 'practice.sqlite']);
      expect(await batchesIn(each)).toBe(BATCHES);
    }
    // Killed after its name was given: the record stands, and what was left beside it goes.
    mkdirSync(apart(dir));
    renameSync(join(dir, 'practice.heads'), join(apart(dir), 'practice.heads'));
    expect(await beginWithPast(asked(dir))).toBe(false);
    expect(existsSync(apart(dir))).toBe(false);
    expect(await batchesIn(dir)).toBe(BATCHES);
  });

  it.each(['practice.sqlite', 'practice.sqlite-wal', 'practice.heads'])('leaves %s as it stands, whatever is in it', async (name) => {
    writeFileSync(join(rig.dir, name), 'of somebody');
    expect(await beginWithPast(asked(rig.dir))).toBe(false);
    expect(readdirSync(rig.dir)).toEqual([name]);
    expect(readFileSync(join(rig.dir, name), 'utf8')).toBe('of somebody');
  });

  it('leaves nothing when it cannot be laid out', async () => {
    let left = 10;
    const failing = {
      ...CLOCK,
      wall: () => {
        left -= 1;
        if (left < 0) throw new Error('no more');
        return CLOCK.wall();
      },
    };
    await expect(beginWithPast(asked(rig.dir, { clock: failing }))).rejects.toThrow('no more');
    expect(readdirSync(rig.dir)).toEqual([]);
  });
});
