import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { verify } from '#lib/record/verify';
import { openStore } from '#server/store/open';
import type { Store } from '#server/store/store';
import { runChild } from '#tests/support/child';
import { storeRig } from '#tests/support/store-rig';
import type { Rig } from '#tests/support/store-rig';

const CHILD = join(import.meta.dirname, '../../support/store-child.ts');
/** `KILLS=200 npx vitest run tests/server/store/kill.test.ts` for a long run. */
const KILLS = Number(process.env['KILLS'] ?? 20);

/** Numbers of the appends a program asked for and those it acknowledged, until it was killed. */
const killedWhileAppending = async (dir: string, afterMs: number): Promise<{ asked: number[]; acked: number[] }> => {
  const child = runChild(CHILD, ['append', dir, '100000']);
  await child.line('ack');
  // A moment of its own at every run: within an append, between two, while the log is copied back.
  await setTimeout(afterMs);
  child.process.kill('SIGKILL');
  await child.ended();
  const numbers = (word: string): number[] =>
    child.said.filter((line) => line.startsWith(`${word} `)).map((line) => Number(line.split(' ')[1]));
  return { asked: numbers('ask'), acked: numbers('ack') };
};

const numberIn = (text: string): number => (JSON.parse(text) as { n: number }).n;

describe('kill -9 while appending', () => {
  let rig: Rig;
  let store: Store;
  beforeEach(() => {
    rig = storeRig();
  });
  afterEach(() => rig.remove());

  it(
    `loses nothing acknowledged, doubles nothing and leaves nothing half written (${KILLS} kills)`,
    async () => {
      let known = 0;
      for (let kill = 0; kill < KILLS; kill += 1) {
        const { asked, acked } = await killedWhileAppending(rig.dir, (kill * 37) % 150);
        store = await openStore(rig.options);
        expect(store.health()).toMatchObject({ ok: true, readOnly: null });
        const lines = await store.bench.lines(0, 1_000_000);
        const numbers = lines.map((line) => numberIn(line.text));
        // In order, each once; at most the one under way is there without having been acknowledged.
        expect(numbers).toEqual(numbers.map((_, i) => i + 1));
        const last = acked.at(-1) ?? known;
        expect(numbers.length).toBeGreaterThanOrEqual(last);
        expect(numbers.length).toBeLessThanOrEqual(asked.at(-1) ?? last);
        expect(verify(lines).breaks).toEqual([]);
        // Entry, answer and strip stand together or not at all.
        const answers = await Promise.all([last, numbers.length, numbers.length + 1].map((n) => store.bench.answerTo(`intent-${n}`)));
        expect(answers).toEqual([{ ok: true, at: last }, { ok: true, at: numbers.length }, null]);
        known = numbers.length;
        await store.close();
      }
      expect(known).toBeGreaterThan(KILLS);
    },
    KILLS * 10_000,
  );
});
