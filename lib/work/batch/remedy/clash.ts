import { clashOf } from '#lib/soap/remedy/clash';
import { leastChange } from '#lib/soap/remedy/least-change';
import type { Programme } from '#lib/soap/remedy/programme';
import type { Solver } from '#lib/soap/remedy/solver';
import { mg } from '#lib/units/mass';
import type { Bench } from './bench';
import { clashAt } from './leaves';
import type { RemedyClash } from './limits';
import { programmeOf, scaleFor, type NamedProgramme, type Ways } from './programme';

/** Grams below which a limit does not count as given way. */
const GIVEN = 1e-6;

/** With as much of every line as anybody could want. */
const withStock = (programme: NamedProgramme, bench: Bench): Programme => ({
  ...programme,
  quantities: programme.quantities.map((one, i) => (bench.stands[i]?.up === true ? { ...one, most: Number.POSITIVE_INFINITY } : one)),
});

const softened = (programme: NamedProgramme): NamedProgramme => ({
  ...programme,
  limits: programme.limits.map((limit) => ({ ...limit, safety: false })),
});

/** Lines of which there is too little, with how much more would do, where that is all that is wrong. */
const shortOf = (programme: NamedProgramme, bench: Bench, solve: Solver): readonly RemedyClash[] => {
  const limited = bench.stands.some(({ id }) => bench.facts.stock[id] !== undefined);
  const found = limited ? leastChange(withStock(programme, bench), solve) : null;
  if (found === null) return [];
  return programme.quantities.flatMap(({ most }, i): readonly RemedyClash[] => {
    const missing = Math.ceil(((found.own[i] ?? 0) - most) * 1000);
    const id = bench.stands[i]?.id ?? null;
    return missing > 0 && id !== null ? [{ limit: 'stock', line: id, vessel: null, by: missing, unit: 'mg' }] : [];
  });
};

/** Division of a scale that shows anything a person can pour, mg. */
const FINE = mg(10);

/** Lines that no scale here can show, with what would be poured of them, where a scale is all that is wanting. */
const unweighed = (bench: Bench, ways: Ways, solve: Solver): readonly RemedyClash[] => {
  const scales = bench.facts.scales.map((scale) => ({ ...scale, division: scale.division ?? FINE }));
  const shown = programmeOf({ ...bench, facts: { ...bench.facts, scales } }, ways);
  const found = leastChange(shown, solve);
  if (found === null) return [];
  return bench.stands.flatMap((stand, i): readonly RemedyClash[] => {
    const by = Math.round(Math.abs((found.own[i] ?? 0) * 1000 - (shown.quantities[i]?.weighing.stays ?? 0) * 1000));
    const unshown = scaleFor(bench.facts, stand)?.division ?? null;
    return by > 0 && unshown === null ? [{ limit: 'smallest-weight', line: stand.id, vessel: null, by, unit: 'mg' }] : [];
  });
};

/**
 * Which limits cannot all be kept, each with the least it would have to give way, the greatest first in what proves it; then what would be
 * missing of which line, or of which no scale here shows enough, where that would help. @throws SolverFailed
 */
export const clashesOf = (bench: Bench, ways: Ways, solve: Solver): readonly RemedyClash[] => {
  const programme = programmeOf(bench, ways);
  // Masses there are, and no scale here that could show them.
  if (leastChange(programme, solve) !== null) return [];
  // Where not even what is safe can be kept, that is among what clashes; it gives way for telling by how much, and for nothing else.
  const clash = clashOf(programme, solve) ?? clashOf(softened(programme), solve);
  const missing = [...shortOf(programme, bench, solve), ...unweighed(bench, ways, solve)];
  if (clash === null) return missing;
  const given = programme.limits
    .map((limit, r) => ({ limit, slack: clash.slacks[r] ?? 0, weight: clash.weights[r] ?? 0 }))
    .filter(({ slack }) => slack > GIVEN)
    .toSorted((a, b) => b.weight - a.weight);
  return [...given.map(({ limit }) => clashAt(bench, limit, clash.final)), ...missing];
};
