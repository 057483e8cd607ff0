import { describe, expect, it } from 'vitest';
import { tableOf } from './endured';
import { kills } from './kills';

/** `npm run endure` for a long run. */
const KILLS = Number(process.env['ENDURE_KILLS'] ?? 20);

describe('a bench killed with -9 at random moments of a batch', () => {
  it(`loses no weight and doubles none (${KILLS} kills)`, { timeout: 60_000 + KILLS * 15_000 }, async () => {
    const endured = await kills(KILLS, 5);
    expect(endured.faults, tableOf(endured)).toEqual([]);
    expect(endured).toMatchObject({ passed: KILLS, failed: 0 });
    // Nothing weighed, nothing answered: nothing could have been lost.
    expect(endured.figures['weights accepted'], tableOf(endured)).toBeGreaterThan(0);
    expect(endured.figures['lines compared with the truth'], tableOf(endured)).toBeGreaterThan(0);
  });
});
