import { describe, expect, it } from 'vitest';
import { explore, toldOf, WITHOUT_EPISODES } from './explore';
import { ACCEPTED_ONCE, INVARIANTS } from './invariants/index';

const RUNS = Number(process.env['MODEL_RUNS'] ?? 1_000);
const SEED = 13;
/** Finds what the rules without episodes do wrong soon. */
const SOON = 15;

/**
 * The real bench (pipeline, conductor, mailbox, rules, both sides of two screens) in a world that a random story moves: vessels, pours,
 * odd readings, stalls, unplugged cables, clock steps, presses seen late or sent twice, a slow or full disk, crashes. After every step the
 * invariants are looked at by a reader of its own. `npm run model` plays more of it.
 */
describe('the model of a bench', () => {
  it(`holds its ${INVARIANTS.length} invariants through ${RUNS} random stories`, { timeout: 60_000 + RUNS * 900 }, async () => {
    const { found, runs, tally } = await explore({ runs: RUNS, seed: SEED });
    expect(found === null ? '' : toldOf(found, SEED)).toBe('');
    expect(runs).toBe(RUNS);
    // A model in which nothing comes about holds everything.
    const often = (kind: string): number => tally.kinds.get(kind) ?? 0;
    expect(often('accepted by-itself')).toBeGreaterThan(RUNS / 4);
    for (const kind of ['accepted go-on', 'accepted held', 'weight-typed', 'struck', 'resumed', 'crash', 'instrument-lost', 'joined'])
      expect(often(kind), kind).toBeGreaterThan(0);
  });

  it('finds one settled weight accepted twice when the rules forget which were used up', { timeout: 600_000 }, async () => {
    const { found } = await explore({
      runs: 2_000,
      seed: SOON,
      rules: WITHOUT_EPISODES,
      only: [ACCEPTED_ONCE],
      unshortened: true,
    });
    expect(found?.invariant).toBe(ACCEPTED_ONCE);
  });
});
