import { leastChange, type LeastChange } from './least-change';
import { changeOf, excessOf, finalOf, heldBy, keeps, keptOf, type Programme } from './programme';
import type { Solver } from './solver';
import { changeAt, pickOf, type WholeChange } from './whole-change';

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

/** Limits drawn in by what rounding the lines that change can cost each, so that the nearest divisions keep them. */
const drawnIn = (programme: Programme, changes: ReadonlySet<number>): Programme => ({
  ...programme,
  limits: programme.limits.map((limit) => {
    let cost = 0;
    for (const at of changes) cost += (Math.abs(limit.coefficients[at] ?? 0) * (programme.quantities[at]?.weighing.division ?? 0)) / 2;
    return { ...limit, most: limit.most - cost };
  }),
});

const changesIn = ({ quantities }: Programme, { own }: LeastChange): readonly number[] =>
  quantities.flatMap(({ weighing }, at) => (Math.abs((own[at] ?? 0) - weighing.stays) > CHANGED ? [at] : []));

/** Looks at which lines change once the limits are drawn in, and draws them in for those too. */
const ROUNDS = 3;

/**
 * The least change with every line at its nearest division: of limits drawn in by what that may cost, so that it costs nothing; then
 * stepped back toward the least, a division of one or two lines at a time. For changes of many lines, where all combinations are too
 * many. `null` when the drawn-in limits cannot be kept. @throws SolverFailed
 */
export const roundedChange = (programme: Programme, least: LeastChange, solve: Solver): WholeChange | null => {
  if (least.kept.every((one) => 1 - one <= CHANGED)) return ofLines(programme, least, solve);
  return pickOf(
    programme,
    BEYOND.flatMap((more) => {
      const { taken, left } = withdrawn(programme, least, more);
      const after = leastChange(left, solve);
      const found = after === null ? null : ofLines(left, after, solve);
      return found === null ? [] : [{ ...found, gap: found.objective - least.objective, taken }];
    }),
  );
};

/** Divisions beyond what would leave of a mixture that are tried: what leaves cannot be weighed finer. */
const BEYOND = [-1, 0, 1];

/** What leaves the mixtures, in whole divisions, as done; and the programme of what is left. */
const withdrawn = (
  programme: Programme,
  { kept }: LeastChange,
  more: number,
): { readonly taken: readonly number[]; readonly left: Programme } => {
  const taken = programme.mixtures.map((mixture, v) => {
    const { division, mostTaken } = mixture;
    const held = heldBy(mixture);
    if (division === null || 1 - (kept[v] ?? 1) <= CHANGED) return 0;
    const count = Math.ceil(((1 - (kept[v] ?? 1)) * held) / division) + more;
    return Math.max(0, Math.min(count, Math.floor((mostTaken * held) / division))) * division;
  });
  const stays = keptOf(programme, taken);
  const mixtures = programme.mixtures.map(({ id, holds, division }, v) => ({
    id,
    holds: holds.map((one) => one * (stays[v] ?? 1)),
    mostTaken: 0,
    division,
  }));
  return { taken, left: { ...programme, mixtures } };
};

const ofLines = (programme: Programme, least: LeastChange, solve: Solver): WholeChange | null => {
  const changes = new Set(changesIn(programme, least));
  let found: readonly number[] | null = stepped(programme, onGrid(programme, least));
  for (let round = 0; round < ROUNDS && found === null; round += 1) {
    const inner = leastChange(drawnIn(programme, changes), solve);
    if (inner === null) return null;
    const size = changes.size;
    for (const at of changesIn(programme, inner)) changes.add(at);
    found = stepped(programme, onGrid(programme, inner));
    if (changes.size === size) break;
  }
  if (found === null) return null;
  const own = descended(programme, found);
  const final = finalOf(programme, own, NOTHING_TAKEN);
  const nothing = programme.mixtures.map(() => 0);
  return changeAt(programme, least, own, nothing, final);
};

const NOTHING_TAKEN: readonly number[] = [];

/** Where limits are crossed by a little, steps of one division until none is; `null` when they do not get there. */
const stepped = (programme: Programme, start: readonly number[]): readonly number[] | null => {
  const own = [...start];
  const finalNow = (): readonly number[] => finalOf(programme, own, NOTHING_TAKEN);
  for (let step = 0; step < MOST_STEPS && !keeps(programme, finalNow()); step += 1) {
    const best = bestStep(programme, own, finalNow());
    if (best === null) return null;
    own[best.at] = best.mass;
  }
  return keeps(programme, finalNow()) ? own : null;
};

interface Step {
  readonly at: number;
  readonly mass: number;
}

/** A division more or less of each line that changes. */
const stepsFrom = ({ quantities }: Programme, own: readonly number[]): readonly Step[] =>
  quantities.flatMap(({ weighing, least, most }, at) => {
    const { division, stays } = weighing;
    const mass = own[at] ?? 0;
    if (division === null || mass === stays) return [];
    return [mass + division, mass - division].filter((one) => one >= least - 1e-9 && one <= most + 1e-9).map((one) => ({ at, mass: one }));
  });

const bestStep = (programme: Programme, own: readonly number[], final: readonly number[]): Step | null => {
  let best: (Step & { readonly left: number }) | null = null;
  const now = wrong(programme, final);
  for (const { at, mass } of stepsFrom(programme, own)) {
    const left = wrong(programme, final.with(at, (final[at] ?? 0) + mass - (own[at] ?? 0)));
    if (left < (best?.left ?? now)) best = { at, mass, left };
  }
  return best;
};

/** Back toward the least change while one step, or two at once, keep every limit and make it less. */
const descended = (programme: Programme, start: readonly number[]): readonly number[] => {
  let own = start;
  for (let round = 0; round < MOST_STEPS; round += 1) {
    const better = lesser(programme, own);
    if (better === null) return own;
    own = better;
  }
  return own;
};

const lesser = (programme: Programme, own: readonly number[]): readonly number[] | null => {
  const now = changeOf(programme, finalOf(programme, own, NOTHING_TAKEN));
  const steps = stepsFrom(programme, own);
  const good = (to: readonly number[]): boolean => {
    const final = finalOf(programme, to, NOTHING_TAKEN);
    return changeOf(programme, final) < now - 1e-9 && keeps(programme, final);
  };
  for (const { at, mass } of steps) {
    const to = own.with(at, mass);
    if (good(to)) return to;
  }
  for (const one of steps)
    for (const other of steps) {
      const to = own.with(one.at, one.mass).with(other.at, other.mass);
      if (one.at < other.at && good(to)) return to;
    }
  return null;
};
