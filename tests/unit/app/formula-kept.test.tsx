// @vitest-environment jsdom
import { act, cleanup, renderHook } from '@testing-library/react';
import { http, HttpResponse } from 'msw';
import { setupServer } from 'msw/node';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Formula } from '#lib/work/formula/index';
import { NO_HABITS } from '#lib/work/shelf/documents';
import { formula } from '#tests/support/formula';
import { draftOf } from '../../../app/formulas/_parts/draft';
import type { Draft } from '../../../app/formulas/_parts/draft';
import { draftStore } from '../../../app/formulas/_parts/draft-store';
import { useKept } from '../../../app/formulas/_parts/use-kept';

const bench = setupServer();
beforeAll(() => bench.listen({ onUnhandledRequest: 'error' }));
afterEach(() => {
  bench.resetHandlers();
  cleanup();
  localStorage.clear();
});
afterAll(() => bench.close());

const KEPT = formula({ id: 'sheet', name: 'Slate' });
const TYPED: Formula = { ...KEPT, wishes: { ...KEPT.wishes, superfat: '9' } };

/** A sheet on which a superfat was typed and not kept. */
const sheet = () => {
  const seen: { draft: Draft; clean: Formula | null } = { draft: draftOf(TYPED, 1), clean: null };
  draftStore.write({ formula: TYPED, base: 1 });
  const { result } = renderHook(() =>
    useKept({
      draft: seen.draft,
      setDraft: (change) => void (seen.draft = change(seen.draft)),
      setClean: (clean) => void (seen.clean = clean),
      habits: NO_HABITS,
    }),
  );
  return { seen, kept: result.current };
};

/** A version as the shelf tells it. */
const version = (number: number, document: Formula | null) => ({ version: number, wall: 0, note: '', document });

describe('putting a formula away', () => {
  it('leaves on this screen what was typed and not kept', async () => {
    const asked: unknown[] = [];
    bench.use(
      http.post('/api/shelf/formula/sheet', async ({ request }) => {
        asked.push(await request.json());
        return HttpResponse.json({ version: 2 });
      }),
    );
    const { kept } = sheet();
    expect(await act(() => kept.putAway())).toBe(true);
    expect(asked).toEqual([{ expected: 1, document: null, note: '' }]);
    expect(draftStore.read('sheet')).toEqual({ formula: TYPED, base: 1 });
  });

  it('what is typed of it can still be thrown away: the last that stood is shown', async () => {
    bench.use(
      http.get('/api/shelf/formula/sheet', () => HttpResponse.json({ id: 'sheet', versions: [version(1, KEPT), version(2, null)] })),
    );
    const { kept, seen } = sheet();
    await act(() => kept.drop());
    expect(seen.clean).toEqual(KEPT);
    expect(seen.draft).toMatchObject({ base: 2, formula: KEPT });
  });
});
