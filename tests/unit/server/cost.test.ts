import { expect, it } from 'vitest';
import { barsIdOf, summaryOf } from '#lib/work/bars/index';
import { summaryOf as summaryOfBatch } from '#lib/work/batch/summary';
import { EMPTY_SHELF } from '#lib/work/shelf/shelf';
import type { Running } from '#server/http/deps';
import { costPage } from '#server/orders/cost';
import { as } from '#lib/units/id';
import { barsRig, BEGUN } from '#tests/support/bars';
import { started } from '#tests/support/batch';

const LOT = barsIdOf(as('b1'), 1);
const bars = barsRig();
bars.send('begin', BEGUN);
bars.send('note-unmould', { state: 'out', note: '', room: null });
const CUTTER = { id: null, name: 'wire', kind: 'fixed' } as const;
bars.send('cut', { cutter: CUTTER, count: 10, ends: 0, testers: 0, thickness: null, log: null, mass: null });

const weighed = started().weighAll();
const entries = weighed.entries.map((entry) => ({ text: JSON.stringify(entry) }));

/** How many lines were read to tell the cost of a bar, and what it names as unpriced. */
const asked = async (known: boolean): Promise<{ readonly lines: number; readonly unknown: readonly string[] }> => {
  let lines = 0;
  const { unlotted: _kept, ...before } = summaryOfBatch(weighed.now);
  const row = { ...before, lots: [], ...(known ? { unlotted: [{ material: 'olive', mass: 1_000 }] } : {}) };
  const linesOf = async () => {
    lines += entries.length;
    return entries;
  };
  const store = {
    bench: { linesOf },
    batches: { get: async () => row },
    bars: { of: async () => [summaryOf(bars.state())] },
    shelf: { now: () => EMPTY_SHELF },
  };
  const page = await costPage({ store, bars: { state: async () => bars.state() } } as unknown as Running, LOT);
  return { lines, unknown: page?.cost?.unknown ?? [] };
};

it('what had no lot stands in the row of its batch: the cost of a bar reads no line of it', async () => {
  expect(await asked(true)).toEqual({ lines: 0, unknown: ['Olive oil'] });
});

it('is read from the lines where a row is of a program that did not keep it', async () => {
  expect((await asked(false)).lines).toBe(entries.length);
});
