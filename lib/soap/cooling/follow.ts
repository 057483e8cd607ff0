import { fill } from './blocks';
import { judge } from './change';
import { fitLaws } from './fit';
import { doubtOf, keep, learn, snapshotOf } from './hindsight';
import { confirm, jumped } from './jump';
import { MOST_BLOCKS, turned, type CoolingMemory } from './memory';
import { fellOut, heardOutside } from './out';
import { keepPace, paceOf, slowed } from './pace';
import { predict } from './mixture';
import { roomCelsius } from './rooms';
import type { Block, Room, Sample } from './types';

/**
 * Another sample of the vessel's probe. Most only fill a block; the one that closes it costs a fit over at most 40 minutes, so that the
 * cost is the same however long the vessel is watched. A value that is no number, and one from before the last, changes nothing.
 */
export const follow = (memory: CoolingMemory, sample: Sample, room: Room): CoolingMemory => {
  if (!Number.isFinite(sample.celsius) || !Number.isFinite(sample.at)) return memory;
  const { filling, block } = fill(memory.filling, sample);
  const filled = { ...memory, filling };
  return block === null ? filled : take(filled, block, room);
};

/** A person says that the vessel was moved, covered, stirred or poured into: what went before says nothing about what comes. */
export const moved = (memory: CoolingMemory, at: number): CoolingMemory => ({ ...turned(memory, 'said', [], at), filling: null });

/** A block with a gap this long before it has another law for all one knows, s. */
const LONG_GAP_S = 900;

const take = (memory: CoolingMemory, block: Block, room: Room): CoolingMemory => {
  const last = memory.blocks.at(-1);
  if (last !== undefined && block.at - last.at > LONG_GAP_S) return started({ ...memory, blocks: [], leap: null, out: null }, block, room);
  if (memory.out !== null) return heardOutside(memory, memory.out, block, room);
  if (memory.leap !== null) return afterLeap(memory, memory.leap, block, room);
  if (jumped(memory.blocks, block)) return leapt(memory, block, room);
  return append(memory, block, room);
};

const started = (memory: CoolingMemory, block: Block, room: Room): CoolingMemory =>
  append({ ...memory, since: null, turn: null, fit: null, snapshots: [] }, block, room);

/** A block far off: heard once it is doubted; one that fell as no liquid does is the probe's own. */
const leapt = (memory: CoolingMemory, block: Block, room: Room): CoolingMemory =>
  fellOut(memory.blocks, block, room) ? { ...memory, out: { since: block.at, heard: [block] } } : { ...memory, leap: block };

const afterLeap = (memory: CoolingMemory, leap: Block, block: Block, room: Room): CoolingMemory => {
  if (fellOut([...memory.blocks, leap], block, room)) return { ...memory, leap: null, out: { since: leap.at, heard: [block] } };
  const verdict = confirm(memory.blocks, leap, block);
  const settled = { ...memory, leap: null };
  if (verdict === 'step') return append(turned(settled, 'leapt', [leap], block.at), block, room);
  if (verdict === 'steep') return append(append(settled, leap, room), block, room);
  return jumped(memory.blocks, block) ? { ...settled, leap: block } : append(settled, block, room);
};

/** K over the last three blocks by which a vessel above its room is warming. */
const RISE = 0.5;

const isRising = (blocks: readonly Block[], room: Room): boolean => {
  const [third, last] = [blocks.at(-4) ?? blocks[0], blocks.at(-1)];
  if (third === undefined || last === undefined || last.celsius < roomCelsius(room) - 1) return false;
  return last.celsius - third.celsius > RISE && last.celsius >= (blocks.at(-2)?.celsius ?? -Infinity);
};

const append = (memory: CoolingMemory, block: Block, room: Room): CoolingMemory => {
  const blocks = [...memory.blocks, block].slice(-MOST_BLOCKS);
  if (isRising(blocks, room)) return risen(memory, blocks, block);
  if (memory.rising) return toppedOut({ ...memory, blocks }, room);
  const judged = judge(memory, blocks, room);
  if (judged.change !== null) return refit(turned(memory, judged.change.turn, judged.change.blocks, block.at), room);
  const hindsight = learn(memory.hindsight, memory.snapshots, block, memory.blocks.at(-1), memory.fit?.s2 ?? 0);
  const { off, doubtful } = judged;
  return refit({ ...memory, blocks, since: memory.since ?? block.at, hindsight, off, doubtful }, room);
};

/** It warms: nothing is forecast, and the last blocks are kept to see it turn. */
const risen = (memory: CoolingMemory, blocks: readonly Block[], block: Block): CoolingMemory => {
  const tail = blocks.slice(-4);
  if (memory.rising) return { ...memory, blocks: tail };
  // Lye that is being made warms from the first: that is no change of anything.
  if (memory.blocks.length < 4 && memory.turn === null) return { ...memory, blocks: tail, since: block.at, rising: true, fit: null };
  return { ...turned(memory, 'warms', tail, block.at), rising: true };
};

/** The warming is over: the law holds from its top on. */
const toppedOut = (memory: CoolingMemory, room: Room): CoolingMemory => {
  const { blocks } = memory;
  const top = blocks.reduce((best, { celsius }, i) => (celsius > (blocks[best]?.celsius ?? -Infinity) ? i : best), 0);
  const after = blocks.slice(top);
  return refit({ ...memory, blocks: after, since: after[0]?.at ?? null, rising: false, snapshots: [], off: { side: 0, times: 0 } }, room);
};

const refit = (memory: CoolingMemory, room: Room): CoolingMemory => {
  const { blocks, since, turn, hindsight, contents } = memory;
  const fit = fitLaws(blocks, room, turn);
  if (fit === null) return { ...memory, fit: null };
  const age = fit.at - (since ?? fit.at);
  const snapshots = keep(memory.snapshots, snapshotOf(fit, doubtOf(age, turn, hindsight)));
  const now = paceOf(fit, roomCelsius(room));
  const enough = blocks.length >= ENOUGH_BLOCKS;
  const stalls = enough && slowed(contents, memory.pace, now, predict(fit, 0).mean) === 'stalls';
  const pace = enough && turn !== 'sets' ? keepPace(memory.pace, now) : memory.pace;
  return { ...memory, fit, snapshots, pace, setting: turn === 'sets' || stalls };
};

/** Blocks of the newest law before anything is forecast: under three minutes. */
export const ENOUGH_BLOCKS = 8;
