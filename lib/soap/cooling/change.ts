import { median } from './blocks';
import type { CoolingMemory } from './memory';
import { olderBy, said, type Snapshot } from './hindsight';
import { roomCelsius } from './rooms';
import type { Block, Room, Turn } from './types';

/**
 * Seconds that a forecast must be older than what it is held against: the short ones notice leaps, the long ones what grows slowly. A lid
 * takes a tenth or a third of the loss; that is a tenth of a degree a minute, and stands out of the doubt after five or ten.
 */
const LOOK_BACK = [40, 160, 320, 600] as const;
/** Deviations off at which the law is taken to have changed, and so often running. */
const ALARM = 3;
const RUNNING = 2;
/** Deviations off at which a block is doubted. */
const DOUBTED = 2.2;
const ROUNDING = 0.06;

interface Miss {
  readonly side: -1 | 0 | 1;
  readonly snapshot: Snapshot;
}

/** By the scatter of that time: what has changed since is not to excuse itself. */
const sigma = ({ se2 }: Snapshot, deviation: number): number => Math.sqrt(deviation * deviation + se2 / 2 + ROUNDING * ROUNDING);

/** Degrees off what the snapshot said, and in its deviations. */
const off = (snapshot: Snapshot, block: Block): { readonly kelvin: number; readonly times: number } | null => {
  const then = said(snapshot, block.at);
  if (then === null) return null;
  const kelvin = block.celsius - then.celsius;
  return { kelvin, times: kelvin / sigma(snapshot, then.deviation) };
};

const missOf = (memory: CoolingMemory, blocks: readonly Block[], seconds: number): Miss | null => {
  const newest = blocks.at(-1);
  const snapshot = newest === undefined ? undefined : olderBy(memory.snapshots, newest.at, seconds);
  if (snapshot === undefined) return null;
  const found = blocks.slice(-3).flatMap((block) => off(snapshot, block) ?? []);
  if (found.length < 3) return null;
  const times = median(found.map((one) => one.times));
  return { side: Math.abs(times) <= ALARM ? 0 : times > 0 ? 1 : -1, snapshot };
};

export interface Judged {
  readonly off: CoolingMemory['off'];
  readonly doubtful: boolean;
  /** Another law holds since the first of these blocks. */
  readonly change: { readonly turn: Turn; readonly blocks: readonly Block[] } | null;
}

/** Holds the newest blocks against what was forecast of them. `blocks` with the newest, `memory` from before it. */
export const judge = (memory: CoolingMemory, blocks: readonly Block[], room: Room): Judged => {
  const misses = LOOK_BACK.map((seconds) => missOf(memory, blocks, seconds)).filter((miss) => miss !== null);
  const miss = misses.find(({ side }) => side !== 0);
  const doubtful = isDoubtful(memory, blocks);
  if (miss === undefined) return { off: { side: 0, times: 0 }, doubtful, change: null };
  const times = memory.off.side === miss.side ? memory.off.times + 1 : 1;
  if (times < RUNNING) return { off: { side: miss.side, times }, doubtful, change: null };
  const run = trailing(blocks, miss);
  return { off: { side: 0, times: 0 }, doubtful, change: { turn: turnOf(memory, run, miss.side, room), blocks: run } };
};

const isDoubtful = (memory: CoolingMemory, blocks: readonly Block[]): boolean => {
  const newest = blocks.at(-1);
  const snapshot = newest === undefined ? undefined : olderBy(memory.snapshots, newest.at, LOOK_BACK[0]);
  if (snapshot === undefined) return false;
  const two = blocks.slice(-2).map((block) => {
    const then = said(snapshot, block.at);
    return then === null ? 0 : (block.celsius - then.celsius) / Math.hypot(then.deviation, ROUNDING);
  });
  return two.length === 2 && two.every((times) => Math.abs(times) > DOUBTED);
};

/** The newest blocks that all lie on that side of what was said. */
const trailing = (blocks: readonly Block[], { side, snapshot }: Miss): readonly Block[] => {
  let first = blocks.length - 1;
  while (first > 0) {
    const one = off(snapshot, blocks[first - 1] as Block);
    if (one === null || one.times * side < 1) break;
    first -= 1;
  }
  return blocks.slice(first);
};

/** K per second beyond which a vessel warms and does not merely stand. */
const WARMS = 0.3 / 60;

const turnOf = (memory: CoolingMemory, run: readonly Block[], side: -1 | 0 | 1, room: Room): Turn => {
  const [first, last] = [run[0] as Block, run.at(-1) as Block];
  const below = last.celsius < roomCelsius(room);
  // Below its room a vessel warms by itself: faster there is upwards.
  if (side < 0) return below ? 'slower' : 'faster';
  const slope = last.at > first.at ? (last.celsius - first.celsius) / (last.at - first.at) : 0;
  if (slope > WARMS) return 'warms';
  const { setsBelow, kind } = memory.contents;
  return kind === 'oils' && setsBelow !== null && last.celsius <= setsBelow ? 'sets' : 'slower';
};
