import type { LeastChange } from './least-change';
import { changeOf, excessOf, finalOf, keeps, keptOf, type Programme } from './programme';
import type { WholeChange } from './whole-change';

const CHANGED = 1e-7;
/** Steps of one division each until a rounding is given up. */
const MOST_STEPS = 60;

/** Bounds in whole divisions about where a line counts from. */
const clamp = (own: number, least: number, most: number, from: number, division: number): number => {
  if (own < least - 1e-9) return from + Math.ceil((least - from) / division - 1e-9) * division;
  return own > most + 1e-9 ? from + Math.floor((most - from) / division + 1e-9) * division : own;
};

const onGrid = (programme: Programme, { own }: LeastChange): number[] =>
  programme.quantities.map(({ weighing, least, most }, i) => {
    const { division, from, stays } = weighing;
    const mass = own[i] ?? stays;
    if (division === null || Math.abs(mass - stays) <= CHANGED) return stays;
    return clamp(from + Math.round((mass - from) / division) * division, least, most, from, division);
  });

/** How far all limits together are left, each beside the size of its own terms. */
const wrong = ({ limits }: Programme, final: readonly number[]): number =>
  limits.reduce((sum, limit) => {
    const scale = limit.coefficients.reduce((largest, one) => Math.max(largest, Math.abs(one)), 1e-12);
    return sum + Math.max(0, excessOf(limit, final)) / scale;
  }, 0);

/**
 * The least change with every line at its nearest division, then stepped a division at a time, whichever line helps most, until every
 * limit is kept: for changes of many lines, where all combinations are too many. `null` when steps do not get there.
 */
export const roundedChange = (programme: Programme, least: LeastChange): WholeChange | null => {
  const { quantities, mixtures } = programme;
  if (least.kept.some((one) => 1 - one > CHANGED)) return null;
  const own = onGrid(programme, least);
  const taken = mixtures.map(() => 0);
  const finalNow = (): readonly number[] => finalOf(programme, own, keptOf(programme, taken));
  for (let step = 0; step < MOST_STEPS && !keeps(programme, finalNow()); step += 1) {
    const best = bestStep(programme, own, finalNow());
    if (best === null) return null;
    own[best.at] = best.mass;
  }
  const final = finalNow();
  if (!keeps(programme, final)) return null;
  const objective = changeOf(programme, final);
  return {
    objective,
    gap: objective - least.objective,
    final,
    own,
    taken,
    changed: quantities.map(({ weighing }, i) => own[i] !== weighing.stays),
  };
};

const bestStep = (
  programme: Programme,
  own: readonly number[],
  final: readonly number[],
): { readonly at: number; readonly mass: number } | null => {
  let best: { readonly at: number; readonly mass: number; readonly left: number } | null = null;
  for (const [at, { weighing, least, most }] of programme.quantities.entries()) {
    const { division, stays } = weighing;
    if (division === null || own[at] === stays) continue;
    for (const mass of [(own[at] ?? 0) + division, (own[at] ?? 0) - division]) {
      if (mass < least - 1e-9 || mass > most + 1e-9) continue;
      const there = final.map((one, i) => (i === at ? one + mass - (own[at] ?? 0) : one));
      const left = wrong(programme, there);
      if (left < (best?.left ?? wrong(programme, final))) best = { at, mass, left };
    }
  }
  return best;
};
