import type { InstrumentConfig } from '../instrument';
import { SCALE_SHAPES, type Shape } from '../shape';
import { REQUEST } from '../wire/index';
import type { Monotonic } from '#lib/units/time';

type Request = NonNullable<(typeof REQUEST)[Shape]>;

/** Requests unanswered for so many of their own intervals are sent again. */
const PATIENCE = 5;
const LF = 10;

/** Decides when an instrument that speaks only when asked is asked. One per opening. */
export interface Polling {
  heard(chunk: Uint8Array): void;
  /** What to send now, or `null`. `shape`: what the frames have proved by now; `deafMs`: since anything at all came. */
  due(now: Monotonic, shape: Shape | null, deafMs: number): Uint8Array | null;
}

/**
 * A known shape is asked in its own words. A scale of unknown shape that stays dumb is asked in every known way in turn,
 * keeping to the one it answers; one that speaks by itself is left alone.
 */
export const createPolling = (config: InstrumentConfig, expected: Shape | null): Polling => {
  const ways = expected === null ? (config.kind === 'scale' ? everyWay() : []) : wayOf(expected);
  let way = 0;
  let askedAt: Monotonic | null = null;
  let answered = true;
  return {
    heard(chunk) {
      answered ||= chunk.includes(LF);
    },
    due(now, shape, deafMs) {
      const mine = expected === null && shape !== null ? wayOf(shape) : ways;
      const request = mine[way % Math.max(1, mine.length)];
      if (request === undefined) return null;
      const patience = request.everyMs * PATIENCE;
      if (askedAt === null && mine.length > 1 && deafMs < patience) return null;
      if (askedAt !== null && now - askedAt < (answered ? request.everyMs : patience)) return null;
      if (!answered) way += 1;
      askedAt = now;
      answered = false;
      return (mine[way % mine.length] ?? request).bytes;
    },
  };
};

const wayOf = (shape: Shape): Request[] => {
  const request = REQUEST[shape];
  return request === null ? [] : [request];
};

/** Each distinct request once: several shapes understand the same one. */
const everyWay = (): Request[] => {
  const ways = new Map<string, Request>();
  for (const request of SCALE_SHAPES.flatMap(wayOf)) ways.set(request.bytes.join(), request);
  return [...ways.values()];
};
