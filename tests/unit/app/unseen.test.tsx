// @vitest-environment jsdom
import { act, cleanup, renderHook } from '@testing-library/react';
import { afterEach, expect, it, vi } from 'vitest';
import { controls } from '../../../app/bench/_parts/controls';
import type { Sheet } from '../../../app/bench/_parts/controls';
import { useNothingUnseen } from '../../../app/bench/_parts/unseen';

const { told } = vi.hoisted(() => ({ told: [] as boolean[] }));
vi.mock('../../../app/_live/use', async (original) => ({
  ...(await original<object>()),
  live: () => ({ cover: (covered: boolean) => void told.push(covered) }),
}));

afterEach(() => {
  cleanup();
  told.length = 0;
});

const open = (sheet: Sheet): void => act(() => controls.setState({ sheet }));

it('the bench is told while a sheet lies over the weight or has its back key; practice hands go on beside theirs', () => {
  const { unmount } = renderHook(() => useNothingUnseen());
  open('scene');
  expect(told).toEqual([]);
  open('correct');
  open('first-aid');
  expect(told).toEqual([true]);
  open('none');
  expect(told).toEqual([true, false]);
  open('correct');
  unmount();
  expect(told).toEqual([true, false, true, false]);
});
