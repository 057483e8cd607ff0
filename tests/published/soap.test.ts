import { describe, expect, it } from 'vitest';
import { outcome } from './checks/check';
import { ALL_CHECKS } from './checks/index';

/** Each figure with its source stands in ./checks; `npm run figures` prints the same list as a table. */
describe('figures published elsewhere', () => {
  it.each(ALL_CHECKS.map((check) => [`${check.subject}: ${check.quantity} (${check.source})`, check] as const))('%s', (_, check) => {
    const { ours, difference, passes } = outcome(check);
    expect(passes, `published ${String(check.published)}, ours ${ours}, apart ${difference} of ${check.within} ${check.unit}`).toBe(true);
  });

  it('names a source and a unit for every one, and each only once', () => {
    const keys = ALL_CHECKS.map(({ subject, quantity, source }) => `${subject}|${quantity}|${source}`);
    expect(new Set(keys).size).toBe(keys.length);
    expect(ALL_CHECKS.every(({ source, unit }) => source.length > 3 && unit.length > 0)).toBe(true);
  });
});
