import { describe, expect, it } from 'vitest';
import { tableOf } from './endured';
import { kills } from './kills';
import { unplugs } from './unplugs';

/** `npm run endure` for long runs. */
const KILLS = Number(process.env['ENDURE_KILLS'] ?? 20);
const UNPLUGS = Number(process.env['ENDURE_UNPLUGS'] ?? 20);

/** Mostly waiting for scales to settle: each waits beside the other. */
describe.concurrent('what a bench endures', () => {
  it(
    `killed with -9 at random moments of a batch it loses no weight and doubles none (${KILLS})`,
    {
      timeout: 60_000 + KILLS * 30_000,
    },
    async () => {
      const endured = await kills(KILLS, 5);
      expect(endured.faults, tableOf(endured)).toEqual([]);
      expect(endured).toMatchObject({ passed: KILLS, failed: 0 });
      // Nothing weighed: nothing could have been lost.
      expect(endured.figures['weights accepted'], tableOf(endured)).toBeGreaterThan(0);
      expect(endured.figures['lines compared with the truth'], tableOf(endured)).toBeGreaterThan(0);
    },
  );

  it(
    `its scale's cable pulled mid-pour and mid-frame, it shows no wrong value and is back within three seconds (${UNPLUGS})`,
    {
      timeout: 60_000 + UNPLUGS * 30_000,
    },
    async () => {
      const endured = await unplugs(UNPLUGS, 5);
      expect(endured.faults, tableOf(endured)).toEqual([]);
      expect(endured).toMatchObject({ passed: UNPLUGS, failed: 0 });
      expect(endured.figures['weights accepted, all as on the pan'], tableOf(endured)).toBeGreaterThan(0);
      expect(endured.figures['numbers among them'], tableOf(endured)).toBeGreaterThan(UNPLUGS);
    },
  );
});
