import { describe, expect, it } from 'vitest';
import { FAILURE_ADVICE, linkAdvice, MANY_LOSSES } from '#lib/measure/link/words';

describe('advice on a link', () => {
  it('B4: busy, denied, missing and every other failure have words and a remedy of their own', () => {
    const all = Object.values(FAILURE_ADVICE).flatMap(({ said, todo }) => [said, todo]);
    expect(new Set(all).size).toBe(all.length);
    expect(FAILURE_ADVICE.denied.todo).toContain('dialout');
    expect(FAILURE_ADVICE.denied.todo).toContain('plugdev');
    expect(FAILURE_ADVICE.busy.todo).toContain('Close it');
  });

  it('has nothing to say of a link that works', () => {
    expect(linkAdvice({ failure: null, lossesLastHour: 1, detail: '' })).toBeNull();
  });

  it('B3: names the wiring when losses are frequent, even while it works, but not over a failure of another kind', () => {
    expect(linkAdvice({ failure: null, lossesLastHour: MANY_LOSSES, detail: '' })?.todo).toContain('ferrite');
    expect(linkAdvice({ failure: 'lost', lossesLastHour: MANY_LOSSES, detail: '' })?.todo).toContain('ferrite');
    expect(linkAdvice({ failure: 'denied', lossesLastHour: MANY_LOSSES, detail: '' })).toBe(FAILURE_ADVICE.denied);
  });
});
