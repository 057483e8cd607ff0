import { predict } from './mixture';
import type { CoolingMemory } from './memory';
import { turned } from './memory';
import { roomCelsius } from './rooms';
import type { Block, Room } from './types';

/** A probe in the air loses a fifth of its difference to the room within a block; the fastest bath takes a tenth from a jug. Ours. */
const LOST = 0.2;
const LEAST_LOST = 2;
/** K per second: slower than this it stands in something again. */
const CALM = 1.5 / 60;
/** K above the room: nearer, it may as well hang in the air. A room that is not known may be this much warmer than it is taken. */
const ABOVE = 3;
const UNKNOWN_ABOVE = 6;
/** Blocks further apart than this, s, are no fall that was watched; then most of the way to the room must be gone, within this. */
const WATCHED_S = 45;
const UNWATCHED = { lost: 0.6, seconds: 300 } as const;
/** K and deviations within which it is back in the liquid it was in. */
const BACK = 2;
const BACK_TIMES = 3;
const HEARD = 3;

/** Whether this block fell as no liquid does. */
export const fellOut = (blocks: readonly Block[], block: Block, room: Room): boolean => {
  const last = blocks.at(-1);
  if (last === undefined || block.at - last.at > UNWATCHED.seconds) return false;
  const lost = block.at - last.at > WATCHED_S ? UNWATCHED.lost : LOST;
  return last.celsius - block.celsius > Math.max(LEAST_LOST, lost * (last.celsius - roomCelsius(room)));
};

/** Another block of a probe that hangs in the air: still so, back in the liquid, or in something else that stands above the room. */
export const heardOutside = (memory: CoolingMemory, out: NonNullable<CoolingMemory['out']>, block: Block, room: Room): CoolingMemory => {
  if (memory.fit !== null) {
    const then = predict(memory.fit, block.at - memory.fit.at);
    if (Math.abs(block.celsius - then.mean) < Math.max(BACK, BACK_TIMES * Math.sqrt(then.variance))) {
      return { ...memory, out: null, leap: null, blocks: [...memory.blocks, block] };
    }
  }
  const heard = [...out.heard, block].slice(-HEARD);
  const [first, last] = [heard[0] as Block, heard.at(-1) as Block];
  const slope = Math.abs(last.celsius - first.celsius) / Math.max(1, last.at - first.at);
  const above = roomCelsius(room) + (room === null ? UNKNOWN_ABOVE : ABOVE);
  if (heard.length === HEARD && slope < CALM && last.celsius > above) return turned(memory, 'leapt', heard, block.at);
  return { ...memory, out: { since: out.since, heard } };
};
