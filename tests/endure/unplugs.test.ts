import { describe, expect, it } from 'vitest';
import { tableOf } from './endured';
import { unplugs } from './unplugs';

/** `npm run endure` for a long run. */
const UNPLUGS = Number(process.env['ENDURE_UNPLUGS'] ?? 20);

describe('a scale whose cable is pulled in the middle of pours and frames', () => {
  it(`gives no wrong value and is back within three seconds (${UNPLUGS} times)`, { timeout: 60_000 + UNPLUGS * 20_000 }, async () => {
    const endured = await unplugs(UNPLUGS, 5);
    expect(endured.faults, tableOf(endured)).toEqual([]);
    expect(endured).toMatchObject({ passed: UNPLUGS, failed: 0 });
    expect(endured.figures['weights accepted, all as on the pan'], tableOf(endured)).toBeGreaterThan(0);
    expect(endured.figures['numbers among them'], tableOf(endured)).toBeGreaterThan(UNPLUGS);
  });
});
