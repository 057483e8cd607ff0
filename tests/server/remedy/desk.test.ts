import { EventEmitter } from 'node:events';
import type { Worker } from 'node:worker_threads';
import { afterEach, describe, expect, it } from 'vitest';
import { remedyQuestion } from '#lib/work/batch/remedy/index';
import type { RemedyQuestion } from '#lib/work/batch/remedy/index';
import { createRemedyDesk, type RemedyDesk } from '#server/remedy/desk';
import { formula } from '#tests/support/formula';
import { batchOf, factsWith, LIMITS } from '#tests/support/remedy-rig';
import { SolverFailed } from '#lib/soap/remedy/solver';
import { warmUp } from '#server/remedy/warm-up';

const overPoured = (): RemedyQuestion => {
  const rig = batchOf(formula({ limits: LIMITS }));
  rig.weigh('coconut', 318);
  return remedyQuestion(rig.now, factsWith());
};

const desks: RemedyDesk[] = [];
const told: string[] = [];
const desk = (parts: Partial<Parameters<typeof createRemedyDesk>[0]> = {}): RemedyDesk => {
  const one = createRemedyDesk({ patienceMs: 10_000, trouble: (what) => told.push(what), ...parts });
  desks.push(one);
  return one;
};
afterEach(async () => {
  await Promise.all(desks.splice(0).map((one) => one.stop()));
  told.length = 0;
});

/** A worker that is ready and answers nothing, or what it is told to. */
const mute = (answers: (id: number) => unknown = () => null): Worker => {
  const one = Object.assign(new EventEmitter(), {
    unref() {},
    postMessage({ id }: { id: number }) {
      const answer = answers(id);
      if (answer !== null) queueMicrotask(() => one.emit('message', answer));
    },
    terminate: () => {
      queueMicrotask(() => one.emit('exit', 1));
      return Promise.resolve(1);
    },
  });
  queueMicrotask(() => one.emit('message', { kind: 'ready' }));
  return one as unknown as Worker;
};

describe('remedies in a thread of their own', () => {
  it('answers, and several at once each with its own', async () => {
    const one = desk();
    await one.ready();
    const question = overPoured();
    const [first, second] = await Promise.all([one.answer(question), one.answer({ ...question, version: 99 })]);
    expect(first.solved).toBe(true);
    expect(first.version).toBe(question.version);
    expect(second.version).toBe(99);
    expect(first.cards[0]?.kind).toBe('lift-out');
    expect(first.cards.at(-1)?.kind).toBe('stop');
  });

  it('that take too long leave carrying on and stopping, and the thread is ended', async () => {
    const one = desk({ patienceMs: 20, open: () => mute() });
    const answer = await one.answer(overPoured());
    expect(answer.solved).toBe(false);
    expect(answer.cards.map(({ kind }) => kind)).toEqual(['carry-on', 'stop']);
    expect(told).toContain('a remedy took too long');
    await expect.poll(() => told).toContain('the solver of remedies ended');
  });

  it('that cannot be worked out are answered with what remains, and say why', async () => {
    const one = desk({ open: () => mute((id) => ({ kind: 'failed', id, why: 'no optimum' })) });
    const answer = await one.answer(overPoured());
    expect(answer.solved).toBe(false);
    expect(told).toEqual(['a remedy could not be worked out']);
  });

  it('are answered without a solver while its thread is gone', async () => {
    const gone = mute();
    const one = desk({ open: () => gone });
    gone.emit('error', new Error('no memory'));
    const answer = await one.answer(overPoured());
    expect(answer.solved).toBe(false);
    expect(told).toEqual(['the solver of remedies ended']);
  });
});

it('a machine too slow for the first programmes is warmed by them all the same', () => {
  let asked = 0;
  const slow = (): never => {
    asked += 1;
    throw new SolverFailed('no optimum in time');
  };
  warmUp(slow);
  expect(asked).toBeGreaterThan(1);
});
