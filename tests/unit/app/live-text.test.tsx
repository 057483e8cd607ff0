// @vitest-environment jsdom
import { act, cleanup, render } from '@testing-library/react';
import { Profiler, StrictMode } from 'react';
import type { ReactNode } from 'react';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { mg } from '#lib/units/mass';
import type { BenchCue } from '#lib/bench/cue';
import type { BatchState } from '#lib/work/batch/index';
import { SCENES } from '#tests/browser/support/fixtures';
import { TheNumber } from '../../../app/bench/_parts/number';
import { fold } from '../../../app/_live/fold';
import { share } from '../../../app/_live/share';
import { drawing, liveStore, onLive } from '../../../app/_live/start';
import { prefer } from '../../../app/_live/preferences';
import { LiveText } from '../../../app/_ui/live-text';

afterEach(() => {
  cleanup();
  liveStore.setState(liveStore.getInitialState(), true);
  prefer({ mass: 'g', locale: 'auto' });
});

let n = 0;
/** A pour with so many milligrams left, as the live lane writes it. */
const left = (milligrams: number | null, change: Partial<BenchCue> = {}): void => {
  const { frame, entries, lease } = SCENES.pouring();
  n += 1;
  const cue = { ...frame.cue, left: milligrams === null ? null : mg(milligrams), ...change };
  const whole = structuredClone({ ...frame, cue, boot: 'b', n, merged: 0, at: n });
  const older = liveStore.getState();
  const lines = entries.map((entry) => JSON.stringify(entry));
  const batch = older.batch ?? fold(null, lines).batch;
  liveStore.setState({ link: 'up', stale: false, lease, batch, frame: share(older.frame, whole) });
};

const drawings = (children: ReactNode) => {
  const drawn = vi.fn();
  const { container } = render(
    <StrictMode>
      <Profiler id="it" onRender={drawn}>
        {children}
      </Profiler>
    </StrictMode>,
  );
  return { container, drawn };
};
const digits = (within: Element): string => within.querySelector('[data-figure] [aria-hidden]')?.textContent ?? '';
const spoken = (within: Element): string => within.querySelector('.unseen')?.textContent ?? '';

describe('the large number', () => {
  it('is written with each reading, for the eye and the ear, and drawn only when its places change', () => {
    prefer({ locale: 'en-GB' });
    const { container, drawn } = drawings(<TheNumber />);
    act(() => left(412_600));
    expect(digits(container)).toBe('412.6');
    const before = drawn.mock.calls.length;
    const cell = container.querySelector('[data-figure]');
    // Outside of act: nothing of React's is waited for.
    for (const [milligrams, text] of [
      [412_500, '412.5'],
      [99_900, '99.9'],
      [1_000, '1.0'],
    ] as const) {
      left(milligrams);
      expect(digits(container)).toBe(text);
      expect(spoken(container)).toBe(`${text} g left`);
    }
    expect(drawn).toHaveBeenCalledTimes(before);
    expect(container.querySelector('[data-figure]')).toBe(cell);
  });

  it('has its digits in the very task of a reading, and what is read aloud of it right after', async () => {
    prefer({ locale: 'en-GB' });
    const { container } = drawings(<TheNumber />);
    act(() => left(412_600));
    drawing.digitsFirst(() => left(412_500));
    expect([digits(container), spoken(container)]).toEqual(['412.5', '412.6 g left']);
    await vi.waitFor(() => expect(spoken(container)).toBe('412.5 g left'));
  });

  it('is what a way out takes out where no scale tells it, and of temperatures nobody knows it says no weight', () => {
    prefer({ locale: 'en-GB' });
    const { container } = drawings(<TheNumber />);
    act(() => left(null, { phase: 'take-out' }));
    const out = { kind: 'lift-out', mass: mg(5_100) } as BatchState['toDo'][number];
    act(() => liveStore.setState(({ batch }) => ({ batch: batch === null ? null : { ...batch, toDo: [out] } })));
    expect([digits(container), spoken(container)]).toEqual(['5.1', '5.1 g to take out']);
    act(() => {
      left(null, { phase: 'temperatures' });
      liveStore.setState(({ frame }) => ({ frame: frame === null ? null : { ...frame, probes: [] } }));
    });
    expect(container.querySelector('[data-none]')?.textContent).toBe('Unknown');
  });

  it('becomes another when it is over, and words when there is none', () => {
    prefer({ locale: 'en-GB' });
    const { container } = drawings(<TheNumber />);
    act(() => left(500));
    const cell = container.querySelector('[data-figure]');
    act(() => left(-12_400, { phase: 'over' }));
    expect(digits(container)).toBe('+12.4');
    expect(spoken(container)).toBe('12.4 g over');
    expect(container.querySelector('[data-figure]')).not.toBe(cell);
    act(() => left(null, { phase: 'no-weight', block: 'lost' }));
    expect(container.querySelector('[data-figure]')).toBeNull();
    expect(container.querySelector('[data-none]')?.textContent).not.toBe('');
  });

  it('follows the units and marks of the screen', () => {
    prefer({ locale: 'de-DE' });
    const { container } = drawings(<TheNumber />);
    act(() => left(412_600));
    expect(digits(container)).toBe('412,6');
    act(() => prefer({ mass: 'oz' }));
    expect(digits(container)).toBe('14,55');
    act(() => prefer({ mass: 'lb' }));
    left(680_388);
    expect(spoken(container)).toBe('1 lb 8,00 oz left');
  });
});

const Reads = () => <LiveText read={({ seq }) => String(seq)} data={{ 'data-seq': '' }} />;

describe('a text that changes with the readings', () => {
  it('is written at once and without a drawing, and is another element when it grows', () => {
    const { container, drawn } = drawings(<Reads />);
    const one = container.querySelector('[data-seq]');
    const before = drawn.mock.calls.length;
    liveStore.setState({ seq: 7 });
    expect(one?.textContent).toBe('7');
    expect(drawn).toHaveBeenCalledTimes(before);
    act(() => liveStore.setState({ seq: 10 }));
    expect(container.querySelector('[data-seq]')?.textContent).toBe('10');
    expect(container.querySelector('[data-seq]')).not.toBe(one);
  });

  it('is told before anything is drawn, and one that fails keeps no other from it', () => {
    const heard: string[] = [];
    const reported = vi.fn();
    vi.stubGlobal('reportError', reported);
    const stops = [
      onLive(() => {
        throw new Error('broken');
      }),
      onLive(({ seq }) => void heard.push(`wrote ${seq}`)),
      liveStore.subscribe(({ seq }) => void heard.push(`drew ${seq}`)),
    ];
    liveStore.setState({ seq: 3 });
    for (const stop of stops) stop();
    vi.unstubAllGlobals();
    expect(heard).toEqual(['wrote 3', 'drew 3']);
    expect(reported).toHaveBeenCalledTimes(1);
  });
});
