import type { MaterialClass } from '#lib/work/batch/index';
import { span } from '#lib/measure/readings/settle';
import { stepIn, type Step } from '#lib/measure/readings/step';
import type { DoubtReason } from '../cue';
import type { PourMemory, ScaleMemory } from './memory';

/**
 * Signs that something besides the material moved the weight. Only a person's "go on", or a new zero, clears a doubt.
 * What none of these can see: a spoon or cable that was there all along, something dropped into a running stream, two jars alike.
 */

/** Comes in pieces or spoonfuls: every portion is a step, so a step upwards says nothing. */
export const comesInPieces = (material: MaterialClass): boolean =>
  material === 'hard-oil' || material === 'milk' || material === 'acid' || material === 'additive' || material === 'colourant';

/** The pour with what the newest frame makes doubtful. `net` is the settled net, `null` while it moves. */
export const followDoubts = (
  pour: PourMemory,
  scale: ScaleMemory,
  line: { readonly tolerance: number; readonly pieces: boolean; readonly over: boolean; readonly sign: 1 | -1 },
  net: number | null,
): PourMemory => {
  const { track } = scale;
  const found: DoubtReason[] = [];
  if (crossedGap(scale, line.tolerance)) found.push('gap');
  const steps = followSteps(pour, scale, line.tolerance);
  for (const step of steps) {
    const up = step.size * line.sign > 0;
    if (up && !line.pieces) found.push('step-up');
    if (!up) found.push('step-down');
  }
  if (net !== null && net < pour.highest - Math.max(3 * track.division, 2 * span(track), 0.4 * line.tolerance)) found.push('fell');
  if (line.over) found.push('was-over');
  const lasting = pour.doubts.filter((reason) => reason !== 'step-up' && reason !== 'step-down');
  const doubts = [...new Set([...lasting, ...found])];
  const highest = net === null ? pour.highest : Math.max(pour.highest, net);
  if (steps === pour.steps && highest === pour.highest && sameDoubts(doubts, pour.doubts)) return pour;
  return { ...pour, steps, doubts, highest };
};

const sameDoubts = (a: readonly DoubtReason[], b: readonly DoubtReason[]): boolean =>
  a.length === b.length && a.every((reason, index) => reason === b[index]);

/** The weight changed while nobody was listening. */
const crossedGap = ({ track }: ScaleMemory, tolerance: number): boolean => {
  if (track.news !== 'gap' && track.news !== 'burst') return false;
  const before = track.masses.at(-2);
  const after = track.masses.at(-1);
  if (before === undefined || after === undefined) return false;
  return Math.abs(after - before) >= Math.max(2 * track.division, 0.5 * tolerance);
};

const STEPS_KEPT = 6;

/** Adds the step in view, keeps the larger of two sightings of one step, and lets an opposite one take it back. */
const followSteps = ({ steps, stepsFrom }: PourMemory, scale: ScaleMemory, tolerance: number): readonly Step[] => {
  const { track } = scale;
  const seen = stepIn(track, Math.max(3 * track.division, 0.8 * tolerance), stepsFrom);
  return seen === null ? steps : withStep(steps, seen, track);
};

const withStep = (steps: readonly Step[], { at, size }: Step, track: ScaleMemory['track']): readonly Step[] => {
  const last = steps.at(-1);
  const same = last !== undefined && at - last.at < 1.8 * track.rise + 1.5 * track.period && last.size * size > 0;
  if (!same) return settleSteps([...steps, { at, size }].slice(-STEPS_KEPT), track.division);
  return Math.abs(size) > Math.abs(last.size) ? settleSteps([...steps.slice(0, -1), { ...last, size }], track.division) : steps;
};

/** A step up and an equal one down again: whatever leaned has gone. */
const settleSteps = (steps: readonly Step[], division: number): readonly Step[] => {
  const last = steps.at(-1);
  if (last === undefined) return steps;
  const back = steps.findLastIndex(
    (one) => one.size * last.size < 0 && Math.abs(one.size + last.size) <= Math.max(3 * division, 0.2 * Math.abs(one.size)),
  );
  return back === -1 ? steps : steps.filter((_, index) => index !== back && index !== steps.length - 1);
};
