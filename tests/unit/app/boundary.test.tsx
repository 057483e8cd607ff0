// @vitest-environment jsdom
import { act, cleanup, render } from '@testing-library/react';
import { afterEach, expect, it, vi } from 'vitest';
import { Alarm } from '../../../app/bench/_parts/voice';
import { liveStore } from '../../../app/_live/start';
import { Boundary } from '../../../app/_ui/boundary';
import { SCENES } from '#tests/browser/support/fixtures';

afterEach(cleanup);

function Breaks(): never {
  throw new Error('a part broke');
}

it('B18: a part that breaks leaves the alarms on the screen', () => {
  const quiet = vi.spyOn(console, 'error').mockImplementation(() => {});
  const screen = render(
    <>
      <Boundary fallback={<p>broken</p>}>
        <Breaks />
      </Boundary>
      <Alarm />
    </>,
  );
  act(() => liveStore.setState({ link: 'up', stale: false, frame: { ...SCENES['over-red']().frame, boot: 'b', n: 1, merged: 0, at: 1 } }));
  expect(screen.queryByText('broken')).not.toBeNull();
  expect(screen.getByRole('alert').textContent).toBe('Poured over the limit');
  quiet.mockRestore();
});
