import { DISTURBANCES, type Disturbance } from './disturb';
import { runLines, type RunModel } from './line';
import { count, newTally, type Tally } from './tally';

/** One kind of line in the table. */
export interface Kind {
  readonly disturbance: Disturbance | null;
  readonly pieces: boolean;
}

/** A piece of work for one process: the same part gives the same tally wherever it runs. */
export interface Part extends Kind, Pick<RunModel, 'families' | 'credulous' | 'deaf'> {
  readonly seed: number;
  readonly lines: number;
}

export const KINDS: readonly Kind[] = [false, true].flatMap((pieces) =>
  [null, ...DISTURBANCES].map((disturbance) => ({ disturbance, pieces })),
);

/** Shares of the lines: half undisturbed, half with one mishap, all mishaps alike; a tenth of either comes in pieces. */
const shareOf = ({ disturbance, pieces }: Kind): number => (pieces ? 0.05 : 0.45) / (disturbance === null ? 1 : DISTURBANCES.length);

const PART_LINES = 250;

/** All the work of so many lines, at least that many, in parts of one kind each. Seeds of different parts never meet. */
export const partsOf = (lines: number, seed: number, model: Pick<RunModel, 'families' | 'deaf'>): readonly Part[] =>
  KINDS.flatMap((kind, index) => {
    const wanted = Math.ceil(lines * shareOf(kind) - 1e-9);
    const parts = Math.ceil(wanted / PART_LINES);
    return Array.from({ length: parts }, (_, part) => ({
      ...kind,
      ...model,
      seed: (Math.imul(seed, 0x2545f491) + Math.imul(index, 0x01000193) + Math.imul(part, 4099)) | 0,
      lines: Math.min(PART_LINES, wanted - part * PART_LINES),
    }));
  });

/** Runs until so many lines were begun: a jar may carry two, so there can be one more than asked for. */
export const runPart = ({ lines, seed, ...model }: Part): Tally => {
  const tally = newTally();
  for (let run = 0; tally.lines < lines; run += 1)
    for (const result of runLines({ ...model, seed: (seed + run) | 0 })) count(tally, result);
  return tally;
};
