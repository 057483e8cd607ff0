import type { Filling } from './blocks';
import type { Fit } from './fit';
import type { Hindsight, Snapshot } from './hindsight';
import type { Block, Contents, Mark, Turn } from './types';

/**
 * All that is kept of one vessel: plain data of bounded size, however long it is watched. Nothing in it survives being wrong: what is lost
 * in a restart is seen anew within minutes.
 */
export interface CoolingMemory {
  readonly contents: Contents;
  readonly filling: Filling | null;
  /** A block that leapt; the next one says whether it was so. */
  readonly leap: Block | null;
  /** Blocks under the newest law, oldest first, at most forty minutes of them. */
  readonly blocks: readonly Block[];
  readonly since: number | null;
  /** What began the newest law; `null`: it is the first. */
  readonly turn: Turn | null;
  readonly fit: Fit | null;
  readonly snapshots: readonly Snapshot[];
  readonly hindsight: Hindsight;
  /** How often running the newest blocks lay off one side of what was forecast. */
  readonly off: { readonly side: -1 | 0 | 1; readonly times: number };
  /** The newest two blocks lay far from what was forecast. */
  readonly doubtful: boolean;
  readonly rising: boolean;
  /** Since when the probe seems to hang in the air, and what has been heard since. */
  readonly out: { readonly since: number; readonly heard: readonly Block[] } | null;
  /** Fastest cooling seen under this law, per second, as a share of the difference to the 1.25: what a stall is measured by. */
  readonly pace: number | null;
  readonly setting: boolean;
  /** Newest last, at most eight. */
  readonly marks: readonly Mark[];
}

/** Nothing has been heard of this vessel. */
export const newVessel = (contents: Contents): CoolingMemory => ({
  contents,
  filling: null,
  leap: null,
  blocks: [],
  since: null,
  turn: null,
  fit: null,
  snapshots: [],
  hindsight: { squares: 0, count: 0 },
  off: { side: 0, times: 0 },
  doubtful: false,
  rising: false,
  out: null,
  pace: null,
  setting: false,
  marks: [],
});

const MOST_MARKS = 8;
/** Forty minutes: what lies further back counts less than a three-thousandth. */
export const MOST_BLOCKS = 120;

/** Another law holds from the first of these blocks on. What was learned of how well this vessel is forecast stays. */
export const turned = (memory: CoolingMemory, turn: Turn, blocks: readonly Block[], noticed: number): CoolingMemory => {
  const since = blocks[0]?.at ?? noticed;
  return {
    ...memory,
    leap: null,
    blocks,
    since,
    turn,
    fit: null,
    snapshots: [],
    off: { side: 0, times: 0 },
    doubtful: false,
    rising: false,
    out: null,
    pace: null,
    setting: turn === 'sets',
    marks: [...memory.marks, { turn, since, noticed }].slice(-MOST_MARKS),
  };
};
