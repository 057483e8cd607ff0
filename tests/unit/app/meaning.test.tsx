// @vitest-environment jsdom
import { cleanup, render, screen } from '@testing-library/react';
import { afterEach, expect, it } from 'vitest';
import type { Card } from '#lib/bench/cue';
import { SCENES } from '#tests/browser/support/fixtures';
import { CALM_WAYS } from '#tests/browser/support/ways';
import { changed, lineId, planOf, started } from '#tests/support/batch';
import { fold } from '../../../app/_live/fold';
import { liveStore } from '../../../app/_live/start';
import { Meaning } from '../../../app/bench/_parts/meaning';
import { takenBy } from '../../../app/bench/_parts/words';
import { messages } from '../../../app/bench/messages';

afterEach(() => {
  cleanup();
  liveStore.setState(liveStore.getInitialState(), true);
});

type Seen = NonNullable<Card['remedy']>;

/** The heading of a scene's bench, whose cue says that too. */
const waits = (scene: 'over-calm' | 'waiting-vessel'): string | null | undefined => {
  const { frame, entries, lease } = SCENES[scene]();
  const lines = entries.map((entry) => JSON.stringify(entry));
  const cue = { ...frame.cue, phase: 'waiting-vessel', cards: [] } as const;
  liveStore.setState({
    link: 'up',
    stale: false,
    lease,
    batch: fold(null, lines).batch,
    frame: { ...frame, cue: { ...cue, left: null }, boot: 'b', n: 1, merged: 0, at: 1 },
  });
  render(<Meaning />);
  return document.querySelector('b')?.textContent;
};

it('asks for an empty vessel, and for one that has something in it as it is', () => {
  expect(waits('waiting-vessel')).toBe('Set it down empty');
  cleanup();
  expect(waits('over-calm')).toBe('Set it on the scale');
});

it('says by whom a settled weight is taken: hydroxide, no stated lot and doubt are a person’s', () => {
  const plan = planOf('alder-and-oat');
  const taken = (id: string, doubt: string | null = null, lot?: null): string =>
    takenBy(started(lot === null ? changed(plan, id, { lot }) : plan).now.lines[lineId(id)] ?? null, doubt);
  expect([taken('coconut'), taken('soda'), taken('coconut', null, null), taken('coconut', 'step-up')]).toEqual([
    'itself',
    'yours',
    'yours',
    'yours',
  ]);
  // What is led out of a vessel is taken with a hold, whatever line was last.
  expect(takenBy(null, null, 'take-out')).toBe('yours');
});

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
