import { PROBE_SHAPES, SCALE_SHAPES, type Shape } from '#lib/measure/shape';
import type { InstrumentId } from '#lib/units/id';
import { as } from '#lib/units/id';
import type { Identifier } from './types';
import { createWire } from './wire';

/** Whole good readings of one shape, and none of another, that prove what an instrument speaks. */
export const FRAMES_TO_IDENTIFY = 2;

const NOBODY = as<InstrumentId>('');

/** Listens with a wire of every shape at once. */
export const createIdentifier = (): Identifier => {
  let answer: Shape | null = null;
  const heard = new Map<Shape, number>();
  const hear = (shape: Shape): void => void heard.set(shape, (heard.get(shape) ?? 0) + 1);
  const wires = [...SCALE_SHAPES, ...PROBE_SHAPES].map((shape) =>
    createWire({
      shape,
      instrument: NOBODY,
      use: null,
      sink: {
        reading: () => hear(shape),
        // A probe the board has given no vessel still speaks its shape.
        fault: (fault) => {
          if (fault === 'other-channel') hear(shape);
        },
      },
    }),
  );
  return {
    push(chunk, at) {
      if (answer !== null) return answer;
      for (const wire of wires) wire.push(chunk, at);
      const [first] = heard;
      if (heard.size > 1) heard.clear();
      else if (first !== undefined && first[1] >= FRAMES_TO_IDENTIFY) [answer] = first;
      return answer;
    },
  };
};
