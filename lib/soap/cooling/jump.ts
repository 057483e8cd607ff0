import type { Block } from './types';
import { BLOCK_S } from './blocks';

/** K in 20 s beyond what the blocks before lead to: more is heard twice before it is believed. */
const JUMP = 0.6;
/** K: a step in one block, not a steeper slope. Something was poured in, or the probe moved to another vessel. */
const LEAP = 2;

const slopeOf = (blocks: readonly Block[]): number => {
  const [before, last] = [blocks.at(-2), blocks.at(-1)];
  return before === undefined || last === undefined ? 0 : (last.celsius - before.celsius) / (last.at - before.at);
};

/** How far a block lies from where the blocks before lead, the nearer of standing still and going on. K, signed. */
export const strayed = (blocks: readonly Block[], block: Block): number => {
  const last = blocks.at(-1);
  if (last === undefined) return 0;
  const stood = block.celsius - last.celsius;
  const went = stood - slopeOf(blocks) * Math.min(block.at - last.at, 3 * BLOCK_S);
  return stood * went < 0 ? 0 : Math.abs(stood) < Math.abs(went) ? stood : went;
};

export const jumped = (blocks: readonly Block[], block: Block): boolean => {
  const last = blocks.at(-1);
  return last !== undefined && Math.abs(strayed(blocks, block)) > JUMP * Math.max(1, (block.at - last.at) / BLOCK_S);
};

/** What the block after a leap makes of it: it was an outlier, a step to another level, or the start of a steep way. */
export type Verdict = 'outlier' | 'step' | 'steep';

export const confirm = (blocks: readonly Block[], leap: Block, block: Block): Verdict => {
  const size = strayed(blocks, leap);
  const back = strayed(blocks, block);
  if (Math.abs(block.celsius - leap.celsius) > Math.abs(back) || size * back <= 0) return 'outlier';
  const goesOn = (block.celsius - leap.celsius) / size > 0.5;
  return !goesOn && Math.abs(size) > LEAP ? 'step' : 'steep';
};
