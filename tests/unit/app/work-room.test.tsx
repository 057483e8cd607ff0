// @vitest-environment jsdom
import { act, cleanup, render } from '@testing-library/react';
import { afterEach, expect, it, vi } from 'vitest';
import { SCENES } from '#tests/browser/support/fixtures';
import type { Frame } from '../../../app/_ui/frame';
import { controls, openSheet } from '../../../app/bench/_parts/controls';
import { More } from '../../../app/bench/_parts/more';
import { WorkRoom } from '../../../app/bench/_parts/work';
import { fold } from '../../../app/_live/fold';
import { liveStore } from '../../../app/_live/start';

vi.mock('next/navigation', () => ({ useRouter: () => ({ push: () => undefined }) }));
vi.stubGlobal('matchMedia', () => ({ matches: false, addEventListener: () => undefined, removeEventListener: () => undefined }));

afterEach(() => {
  cleanup();
  controls.setState(controls.getInitialState(), true);
  liveStore.setState(liveStore.getInitialState(), true);
});

const inert = (frame: Frame): boolean | undefined => {
  const { container, unmount } = render(<WorkRoom frame={frame} />);
  const found = container.querySelector('section')?.hasAttribute('inert');
  unmount();
  return found;
};

it('what a sheet lies over is not reached by the keyboard; beside it, on a wide screen, it is', () => {
  expect(['wide', 'small', 'phone'].map((frame) => inert(frame as Frame))).toEqual([false, false, false]);
  act(() => openSheet('more'));
  expect(['wide', 'small', 'phone'].map((frame) => inert(frame as Frame))).toEqual([false, true, true]);
});

const offered = (scene: 'pouring' | 'watching'): readonly (string | undefined)[] => {
  const { frame, entries, lease } = SCENES[scene]();
  const { batch } = fold(
    null,
    entries.map((entry) => JSON.stringify(entry)),
  );
  liveStore.setState({ batch, lease, frame: { ...frame, boot: 'b', n: 1, merged: 0, at: 1 } });
  const { container, unmount } = render(<More />);
  const names = [...container.querySelectorAll('button:not([aria-disabled])')].map((one) => one.textContent ?? '');
  unmount();
  return names;
};

it('a screen that only watches is offered no act that it may not do', () => {
  expect(offered('pouring')).toContain('Park');
  expect(offered('watching')).toEqual(['This screen', 'Lye and oilstemperatures', 'Leave the bench']);
});
