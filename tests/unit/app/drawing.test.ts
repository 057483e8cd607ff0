import { describe, expect, it } from 'vitest';
import { createStore } from 'zustand/vanilla';
import { createDrawing, inNextTask } from '../../../app/_live/drawing';

const rig = () => {
  const store = createStore(() => ({ n: 0 }));
  const tasks: (() => void)[] = [];
  const drawing = createDrawing(store, (run) => tasks.push(run));
  const drawn: (readonly [now: number, before: number])[] = [];
  drawing.subscribe((now, before) => drawn.push([now.n, before.n]));
  return { store, drawing, drawn, tasks, set: (n: number) => store.setState({ n }), run: () => tasks.splice(0).forEach((task) => task()) };
};

describe('what is told to the drawing of a page', () => {
  it('is told at once, unless digits go first', () => {
    const { drawing, drawn, set, run } = rig();
    set(1);
    expect(drawn).toEqual([[1, 0]]);
    drawing.digitsFirst(() => set(2));
    expect(drawn).toEqual([[1, 0]]);
    expect(drawing.getState().n).toBe(2);
    run();
    expect(drawn.at(-1)).toEqual([2, 1]);
  });

  it('is one drawing of the newest for all readings that came meanwhile', () => {
    const { drawing, drawn, tasks, set, run } = rig();
    for (const n of [1, 2, 3]) drawing.digitsFirst(() => set(n));
    expect(tasks).toHaveLength(1);
    run();
    expect(drawn).toEqual([[3, 0]]);
    drawing.digitsFirst(() => set(4));
    run();
    expect(drawn.at(-1)).toEqual([4, 3]);
  });

  it('is not held back by a waiting task when something else happens: values blank at once', () => {
    const { drawing, drawn, set, run } = rig();
    drawing.digitsFirst(() => set(1));
    set(2);
    expect(drawn).toEqual([[2, 0]]);
    run();
    expect(drawn).toHaveLength(1);
  });

  it('is told of the next change after one that broke', () => {
    const { drawing, drawn, set } = rig();
    const broken = new Error('broken');
    expect(() =>
      drawing.digitsFirst(() => {
        throw broken;
      }),
    ).toThrow(broken);
    set(1);
    expect(drawn).toEqual([[1, 0]]);
  });
});

it('runs tasks in the order they were asked for, none of them at once', async () => {
  const later = inNextTask();
  const ran: number[] = [];
  const done = new Promise<void>((resolve) => {
    later(() => ran.push(1));
    later(() => ran.push(2));
    later(resolve);
  });
  expect(ran).toEqual([]);
  await done;
  expect(ran).toEqual([1, 2]);
});
