import { describe, expect, it, vi } from 'vitest';
import { AGAIN_AFTER_MS, createLateParts } from '../../../app/bench/_parts/late-store';

interface Parts {
  readonly cards: string;
  readonly sheet: string;
}

/** Two parts; the first does not come as often as `fails` says. */
const opened = (fails: number) => {
  const tried: string[] = [];
  const later: { readonly ms: number; readonly run: () => void }[] = [];
  let left = fails;
  const late = createLateParts<Parts>(
    [
      async () => {
        tried.push('cards');
        left -= 1;
        if (left >= 0) throw new Error('no such file');
        return { cards: 'cards' };
      },
      async () => {
        tried.push('sheet');
        return { sheet: 'sheet' };
      },
    ],
    (ms, run) => void later.push({ ms, run }),
  );
  return { late, tried, later };
};

describe('parts that come after the page', () => {
  it('one that does not come holds up none of the others, and is said to be missing', async () => {
    const { late } = opened(1);
    await late.fetch();
    expect(late.store.getState()).toEqual({ failed: true, sheet: 'sheet' });
  });

  it('is asked for again by a press, alone', async () => {
    const { late, tried } = opened(1);
    await late.fetch();
    await late.fetch();
    expect(late.store.getState()).toEqual({ failed: false, cards: 'cards', sheet: 'sheet' });
    expect(tried).toEqual(['cards', 'sheet', 'cards']);
  });

  it('is asked for again by itself until it comes, and not after', async () => {
    const { late, later } = opened(2);
    await late.fetch();
    later[0]?.run();
    await vi.waitFor(() => expect(later).toHaveLength(2));
    later[1]?.run();
    await vi.waitFor(() => expect(late.store.getState().failed).toBe(false));
    expect(later.map(({ ms }) => ms)).toEqual([AGAIN_AFTER_MS, AGAIN_AFTER_MS]);
  });

  it('two presses are one try', async () => {
    const { late, tried } = opened(0);
    await Promise.all([late.fetch(), late.fetch()]);
    expect(tried).toEqual(['cards', 'sheet']);
  });
});
