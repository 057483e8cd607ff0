// @vitest-environment jsdom
import { cleanup, render, screen } from '@testing-library/react';
import { afterEach, expect, it } from 'vitest';
import type { Card } from '#lib/bench/cue';
import { SCENES } from '#tests/browser/support/fixtures';
import { CALM_WAYS } from '#tests/browser/support/ways';
import { fold } from '../../../app/_live/fold';
import { liveStore } from '../../../app/_live/start';
import { Meaning } from '../../../app/bench/_parts/meaning';
import { messages } from '../../../app/bench/messages';

afterEach(() => {
  cleanup();
  liveStore.setState(liveStore.getInitialState(), true);
});

type Seen = NonNullable<Card['remedy']>;

/** The heading over an over-pour whose card of carrying on is so. */
const headed = (change: Partial<Card>, remedy: Partial<Seen>): void => {
  const { frame, entries, lease } = SCENES['over-calm']();
  const [carryOn, ...rest] = CALM_WAYS;
  if (carryOn?.remedy === undefined) throw new Error('no card');
  const cards = [{ ...carryOn, ...change, remedy: { ...carryOn.remedy, ...remedy } }, ...rest];
  const { batch } = fold(
    null,
    entries.map((entry) => JSON.stringify(entry)),
  );
  const cue = { ...frame.cue, cards };
  liveStore.setState({ link: 'up', stale: false, lease, batch, frame: { ...frame, cue, boot: 'b', n: 1, merged: 0, at: 1 } });
  render(<Meaning />);
};

it('says lye-heavy over an over-pour that would be, whatever its working value', () => {
  headed({ enabled: false, why: 'lye-heavy' }, { superfat: { value: 400, half: 15_000 } });
  expect(screen.getByText(/^Lye-heavy: superfat 0\.0 %, ±1\.5$/)).toBeDefined();
});

it('says that it may be lye-heavy', () => {
  headed({}, { cautions: ['may-be-lye-heavy'], superfat: { value: 5_000, half: 15_000 } });
  expect(screen.getByText(/^May be lye-heavy: superfat 0\.5 %, ±1\.5$/)).toBeDefined();
});

it('says the strength of the lye where just that leaves its limits', () => {
  headed({}, { matters: [{ of: 'lye', line: null, value: 294_000 }] });
  expect(screen.getByText(messages.acts.lye('29.4 %'))).toBeDefined();
});
