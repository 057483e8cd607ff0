import type { ReviewContribution, ReviewLine } from '#lib/work/batch/index';
import { comesIn } from '#lib/work/batch/comes-in';
import { crossedOutAway } from '../away';
import type { Display } from '#lib/units/display';
import { plannedStep, statedToleranceStep, stepOf, targetStep } from '../quantities';

/** The finest step any weight of the line was stated in, mg; `null` before the first. */
const stepOfLine = (line: ReviewLine): number | null => {
  const steps = line.contributions.flatMap(({ stated }) => stepOf(stated) ?? []);
  return steps.length === 0 ? null : Math.min(...steps);
};

/** How finely the line's figures are shown, mg: in grams as planned and as stated, in ounces so that its tolerance can be told by them. */
export const stepsOf = (line: ReviewLine, display: Display) => ({
  planned: plannedStep(line.planned.target, line.tolerance, display),
  target: plannedStep(line.target, line.tolerance, display),
  weighed: targetStep(line.tolerance, stepOfLine(line) ?? TENTH, display),
  tolerance: statedToleranceStep(line.tolerance, display),
});

/** Of a line nobody weighed yet, mg. */
const TENTH = 100;

const counting = (line: ReviewLine): readonly ReviewContribution[] => line.contributions.filter(({ struck }) => struck === null);

/** Whose figure the actual weight is: one scale's, a person's, or a sum. `none`: nothing was weighed. */
export const voiceOf = (line: ReviewLine): 'measured' | 'entered' | 'worked' | 'none' => {
  const [only, ...more] = counting(line);
  if (only === undefined) return 'none';
  if (more.length > 0) return 'worked';
  // A share of what another batch set aside.
  if (only.kind === 'brought') return 'worked';
  return only.how === 'typed' ? 'entered' : 'measured';
};

/**
 * Marks of the lots a line is of, each once: the right one, and what was stated where another was said later; without a weight, the plan's.
 */
export const lotsOfLine = (line: ReviewLine): readonly { readonly mark: string; readonly stated: string | null }[] => {
  const poured = counting(line).filter(comesIn);
  const all = poured.flatMap(({ lot, rightLot }) => {
    const mark = rightLot ?? lot;
    return mark === null ? [] : [[`${mark} ${rightLot === null ? '' : lot}`, { mark, stated: rightLot === null ? null : lot }] as const];
  });
  if (all.length > 0) return [...new Map(all).values()];
  return line.lot === null ? [] : [{ mark: line.lot, stated: null }];
};

/** How far the line stood from its target with each weight that was later crossed out, in tolerances. */
export const crossedOut = ({ contributions, target, tolerance }: ReviewLine): readonly number[] =>
  crossedOutAway(contributions, target, tolerance);

/** Whether the difference says something: the line is closed, or over already. */
export const isJudged = (line: ReviewLine): boolean => line.status === 'closed' || line.away > 1000;
