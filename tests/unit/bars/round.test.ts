import { expect, it } from 'vitest';
import { lookAt, NEW_ROUND } from '#lib/bench/bars/step';
import type { Around, RoundMemory } from '#lib/bench/bars/step';
import type { Pan } from '#lib/bench/bars/types';

const PAN: Pan = { instrument: 'fine' as never, why: null, division: 100, within: 200, empty: 0, emptySeen: true, settled: null };
const AROUND: Around = { led: true, busy: false, spent: 0, expected: { low: 100_000, high: 130_000 }, over: false };

/** One pan through time: settled at a weight with an episode, or moving. */
const rig = (around: Partial<Around> = {}) => {
  let memory: RoundMemory = NEW_ROUND;
  let now = 0;
  return {
    look: (settled: readonly [gross: number, episode: number] | null, after = 100, more: Partial<Around> = {}, pan: Partial<Pan> = {}) => {
      now += after;
      const at = settled === null ? null : { gross: settled[0], episode: settled[1] };
      const found = lookAt(memory, { ...PAN, ...pan, settled: at }, { ...AROUND, ...around, ...more }, now);
      memory = found.memory;
      return found;
    },
    took: (net: number) => void (memory = { ...memory, offer: null, taken: { net } }),
  };
};

it('offers a settled bar for a moment, takes it, and waits until it is lifted', () => {
  const { look, took } = rig();
  expect(look([20, 1])).toMatchObject({ phase: 'put-on', memory: { zero: 20 } });
  expect(look(null)).toMatchObject({ phase: 'settling', take: false });
  expect(look([121_020, 2])).toMatchObject({ phase: 'offer', net: 121_000, take: false });
  expect(look([121_020, 2], 1_400).take).toBe(false);
  expect(look([121_020, 2], 100).take).toBe(true);
  took(121_000);
  expect(look([121_020, 2], 100, { spent: 2 })).toMatchObject({ phase: 'taken', take: false });
  expect(look([124_000, 3])).toMatchObject({ phase: 'changed', take: false });
  expect(look([40, 4])).toMatchObject({ phase: 'put-on', memory: { zero: 40, taken: null } });
});

it('takes nothing from a pan that was not seen free, a scale not to be believed, or a weight used up', () => {
  const { look } = rig();
  expect(look([121_000, 1])).toMatchObject({ phase: 'empty' });
  look([0, 2]);
  expect(look([121_000, 3], 100, {}, { why: 'lost' })).toMatchObject({ phase: 'no-weight', why: 'lost', memory: { zero: null } });
  // What happened on the pan meanwhile nobody saw.
  expect(look([121_000, 3])).toMatchObject({ phase: 'empty' });
  look([0, 4]);
  expect(look([121_000, 5], 100, { spent: 5 })).toMatchObject({ phase: 'ask', why: 'used-up' });
  for (let i = 0; i < 30; i += 1) expect(look([121_000, 5], 1_000, { spent: 5 }).take).toBe(false);
});

it('waits for a frame that is late without asking to see the pan free again, and begins the moment anew', () => {
  const { look } = rig();
  look([0, 1]);
  expect(look([121_000, 2])).toMatchObject({ phase: 'offer' });
  expect(look([121_000, 2], 1_400, {}, { why: 'late' })).toMatchObject({
    phase: 'no-weight',
    why: 'lost',
    take: false,
    memory: { zero: 0 },
  });
  expect(look([121_000, 2])).toMatchObject({ phase: 'offer', take: false });
  expect(look([121_000, 2], 1_500).take).toBe(true);
});

it('runs no moment while the page that leads does not show the weight', () => {
  const { look } = rig();
  look([0, 1]);
  look([121_000, 2], 100, { unseen: true });
  expect(look([121_000, 2], 5_000, { unseen: true })).toMatchObject({ phase: 'offer', take: false });
  expect(look([121_000, 2], 1_400).take).toBe(false);
  expect(look([121_000, 2], 100).take).toBe(true);
});

it('asks a person about what is unlike, and takes nothing while nobody leads or a batch is weighed', () => {
  const { look } = rig();
  look([0, 1]);
  expect(look([141_000, 2])).toMatchObject({ phase: 'ask', why: 'unlike' });
  expect(look([121_000, 3], 9_000, { led: false })).toMatchObject({ phase: 'ask', why: 'not-led', take: false });
  // The moment begins anew once somebody leads.
  expect(look([121_000, 3], 100)).toMatchObject({ phase: 'offer', take: false });
  expect(look([121_000, 3], 9_000, { busy: true })).toMatchObject({ phase: 'busy', memory: NEW_ROUND, take: false });
});

it('is over when every bar is weighed, and a pan below its zero is to be freed again', () => {
  const { look } = rig();
  look([0, 1]);
  expect(look([0, 1], 100, { over: true })).toMatchObject({ phase: 'done' });
  expect(look([-900, 2])).toMatchObject({ phase: 'empty', why: 'underload', memory: { zero: null } });
});
