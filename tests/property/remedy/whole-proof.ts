import { clashOf } from '#lib/soap/remedy/clash';
import { leastChange } from '#lib/soap/remedy/least-change';
import { heldBy, type Programme, type Quantity } from '#lib/soap/remedy/programme';
import type { Solver } from '#lib/soap/remedy/solver';
import { farkas } from './certificate';

/** Masses of one line in whole divisions: left as it is, or so many divisions from where it counts; `null` where either is ruled out. */
interface Choice {
  readonly stays: boolean;
  readonly counts: readonly [low: number, high: number] | null;
}

/** A part of all combinations: of each line, and of each mixture how many divisions leave. */
interface Node {
  readonly lines: readonly Choice[];
  readonly taken: readonly (readonly [low: number, high: number])[];
}

const HAIR = 1e-9;

/** What a scale can show of a line: told anew here from what the programme says of it. */
const choiceOf = ({ weighing, least, most }: Quantity): Choice => {
  const { division, from, stays, smallest } = weighing;
  if (division === null) return { stays: true, counts: null };
  const poured = least >= from ? Math.max(least, (from === stays ? from : least) + smallest) : least;
  const counts = [Math.ceil((poured - from) / division - HAIR), Math.floor((most - from) / division + HAIR)] as const;
  return { stays: true, counts: counts[0] > counts[1] ? null : counts };
};

const massesOf = ({ weighing }: Quantity, { stays, counts }: Choice): readonly [number, number] | null => {
  const { from, division, stays: still } = weighing;
  const ends = [
    ...(stays ? [still] : []),
    ...(counts === null ? [] : counts.map((count) => (Number.isFinite(count) ? from + count * (division ?? 0) : Number.POSITIVE_INFINITY))),
  ];
  return ends.length === 0 ? null : [Math.min(...ends), Math.max(...ends)];
};

/** Every mass between the ends of a node, whole or not. `null`: a line has none left. */
const relaxed = (programme: Programme, { lines, taken }: Node): Programme | null => {
  const ranges = programme.quantities.map((one, i) => massesOf(one, lines[i] as Choice));
  if (ranges.includes(null)) return null;
  return {
    ...programme,
    quantities: programme.quantities.map((one, i) => ({ ...one, least: ranges[i]?.[0] ?? 0, most: ranges[i]?.[1] ?? 0 })),
    mixtures: programme.mixtures.map((mixture, v) => {
      const [low, high] = taken[v] ?? [0, 0];
      const part = (count: number): number => 1 - (count * (mixture.division ?? 0)) / Math.max(heldBy(mixture), HAIR);
      const [most, least] = [part(low), part(high)];
      return { ...mixture, holds: mixture.holds.map((mass) => mass * most), mostTaken: most <= 0 ? 0 : 1 - least / most };
    }),
  };
};

const isWhole = (count: number): boolean => Math.abs(count - Math.round(count)) < 1e-6;

/** Two parts of a node that leave out what the point in it is and no scale shows; `null`: the point is whole. */
const split = (programme: Programme, node: Node, own: readonly number[], kept: readonly number[]): readonly Node[] | null => {
  const withLine = (at: number, choice: Choice): Node => ({ ...node, lines: node.lines.with(at, choice) });
  for (const [i, { weighing }] of programme.quantities.entries()) {
    const { stays, counts } = node.lines[i] as Choice;
    const mass = own[i] ?? 0;
    if (counts === null || (stays && Math.abs(mass - weighing.stays) < 1e-9)) continue;
    const count = (mass - weighing.from) / (weighing.division ?? 1);
    if (stays && !(isWhole(count) && count >= counts[0] - HAIR && count <= counts[1] + HAIR))
      return [withLine(i, { stays: true, counts: null }), withLine(i, { stays: false, counts })];
    if (isWhole(count)) continue;
    const [below, above] = [Math.floor(count), Math.ceil(count)];
    return [
      withLine(i, { stays, counts: counts[0] > below ? null : [counts[0], below] }),
      withLine(i, { stays: false, counts: above > counts[1] ? null : [above, counts[1]] }),
    ];
  }
  for (const [v, mixture] of programme.mixtures.entries()) {
    const [low, high] = node.taken[v] ?? [0, 0];
    const held = heldBy(mixture);
    const most = 1 - (low * (mixture.division ?? 0)) / held;
    const count = ((1 - (kept[v] ?? 1) * most) * held) / (mixture.division ?? 1);
    if (high <= low || isWhole(count)) continue;
    const parts = [
      [low, Math.floor(count)],
      [Math.ceil(count), high],
    ] as const;
    return parts.map((part) => ({ ...node, taken: node.taken.with(v, part) }));
  }
  return null;
};

/** Parts of all combinations that are looked at, at the most. */
const MOST = 20_000;

/**
 * Whether nothing in whole divisions keeps every limit, by a tree of all combinations: each of its leaves is empty or infeasible even for
 * masses between divisions, which weights of the limits prove by arithmetic alone (Farkas). `found`: something does; `undecided`: the tree
 * grew too large, or a leaf has no proof.
 */
export const provenNone = (programme: Programme, solve: Solver, most = MOST): 'none' | 'found' | 'undecided' => {
  const lines = programme.quantities.map(choiceOf);
  const taken = programme.mixtures.map(
    ({ division, mostTaken, holds }) =>
      [0, division === null ? 0 : Math.floor((mostTaken * holds.reduce((sum, mass) => sum + mass, 0)) / division + HAIR)] as const,
  );
  const open: Node[] = [{ lines, taken }];
  for (let looked = 0; open.length > 0; looked += 1) {
    if (looked > most) return 'undecided';
    const node = open.pop() as Node;
    const all = relaxed(programme, node);
    if (all === null) continue;
    const least = leastChange(all, solve);
    if (least === null) {
      const clash = clashOf(all, solve);
      if (clash === null || farkas(all, clash.weights) <= 1e-12) return 'undecided';
      continue;
    }
    const parts = split(programme, node, least.own, least.kept);
    if (parts === null) return 'found';
    open.push(...parts);
  }
  return 'none';
};
