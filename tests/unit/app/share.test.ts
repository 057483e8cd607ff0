import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { share } from '../../../app/_live/share';

describe('sharing what did not change', () => {
  it('returns the older value when nothing changed', () => {
    const older = { a: [1, { b: 'x' }], c: null };
    expect(share(older, structuredClone(older))).toBe(older);
  });

  it('keeps the unchanged parts of a changed value', () => {
    const older = { cards: [{ code: 'carry-on' }, { code: 'cross-out' }], left: 3 };
    const shared = share(older, { cards: [{ code: 'carry-on' }, { code: 'cross-out' }], left: 4 });
    expect(shared).not.toBe(older);
    expect(shared.cards).toBe(older.cards);
    expect(shared.left).toBe(4);
  });

  it('notices a list that grew, shrank or lost a key', () => {
    const older = { list: [1, 2], gone: 1 } as Record<string, unknown>;
    expect(share(older, { list: [1, 2, 3], gone: 1 })).toEqual({ list: [1, 2, 3], gone: 1 });
    expect(share(older, { list: [1], gone: 1 })).toEqual({ list: [1], gone: 1 });
    expect(share(older, { list: [1, 2] })).toEqual({ list: [1, 2] });
    expect(share({ a: 1 }, { a: 1, b: undefined })).toEqual({ a: 1, b: undefined });
  });

  it('always says what the newer value says', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.jsonValue(), (older, newer) => {
        expect(share(older, structuredClone(newer))).toEqual(newer);
      }),
    );
  });
});
