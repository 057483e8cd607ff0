import type { Solver } from '#lib/soap/remedy/solver';
import { sumOfAll } from '#lib/units/sum';
import { verdictOf } from '../verdict';
import type { Bench } from './bench';
import { cardOf, closedCard } from './card';
import { clashesOf } from './clash';
import { LEAST, spiltOf } from './programme';
import { ownBatchOf } from './own-batch';
import type { MixedVessel, Stand } from './stand';
import type { RemedyCard } from './types';
import { isFound, wayOut, type Sought } from './way';

const PPM = 1e6;

const isOver = ({ line, mass }: Stand): boolean => mass > 0 && verdictOf(line.plan, line.actual) === 'over';

/** The least of everything that is not taken out of the pot; `null` when nothing of it moves or nothing keeps every limit. */
export const leastCard = (bench: Bench, way: Sought): RemedyCard | null => {
  if (way === 'not-solved') return closedCard('least', 'least-change', 'not-solved');
  return way === null || (way.acts.length === 0 && way.change === 0) ? null : cardOf('least', bench, way);
};

/** What a spill took, poured again: back to what was planned, where all of it can be and there is enough. */
export const againCard = (bench: Bench, solve: Solver): RemedyCard | null => {
  const spilt = bench.stands.filter((stand) => spiltOf(stand) > 0);
  if (bench.state.joined !== null || spilt.length === 0 || spilt.some(({ up }) => !up)) return null;
  const way = wayOut(bench, { ...LEAST, again: true }, 'scoop', solve);
  if (!isFound(way) || way.lines.length === 0) return null;
  const mass = spilt.reduce((sum, stand) => sum + spiltOf(stand), 0);
  return cardOf('again', bench, way, { kind: 'pour-again', params: { count: spilt.length, mass } });
};

/** A lump lifted out again, or oil that is alone in the pot poured back: where one of them is over. */
export const liftCard = (bench: Bench, solve: Solver): RemedyCard | null => {
  const over = bench.stands.some((stand) => (stand.standing === 'solid' || stand.standing === 'pot') && isOver(stand));
  const way = over ? wayOut(bench, { ...LEAST, lift: true }, 'scoop', solve) : null;
  return !isFound(way) || way.acts.length === 0 ? null : cardOf('lift', bench, way);
};

/** Times its plan that the batch must become for what is over to be as planned: of what cannot be taken out any more. */
const timesOf = ({ stands }: Bench): number =>
  Math.max(1, ...stands.map((stand) => (stand.standing === 'cup' || !isOver(stand) ? 1 : stand.mass / stand.line.planned.target)));

/** Less than this is no scaling. Ours. */
const LEAST_TIMES = 1.0005;

/** Everything that is still to come, and more of what is in, until all stands in its planned proportions. */
export const scaleCard = (bench: Bench, solve: Solver): RemedyCard | null => {
  const times = timesOf(bench);
  if (bench.state.joined !== null || times < LEAST_TIMES) return null;
  const params = { factor: Math.round(times * PPM) };
  const ways = { ...LEAST, times };
  const way = wayOut(bench, ways, 'scoop', solve);
  if (isFound(way)) return cardOf('scale', bench, way, { kind: 'scale', params });
  if (way === 'not-solved') return closedCard('scale', 'scale', 'not-solved', { params });
  const clashes = clashesOf(bench, ways, solve);
  return closedCard('scale', 'scale', 'outside-limit', { params, whyNot: { code: 'outside-limit', clashes } });
};

/** Lye is poured off, oils are scooped. */
const leavesAs = ({ caustic }: MixedVessel): 'scoop' | 'pour-off' => (caustic ? 'pour-off' : 'scoop');

/**
 * A fraction of one mixture alone, or, where nothing else would do, with what must be poured beside it; the one that changes least.
 * @param alone only what is enough by itself
 */
export const withdrawCard = (bench: Bench, alone: boolean, solve: Solver): RemedyCard | null => {
  if (bench.state.joined !== null) return null;
  const found = bench.mixed.flatMap((one): RemedyCard[] => {
    const from = one.vessel.plan.id;
    const as = leavesAs(one);
    const byItself = wayOut(bench, { ...LEAST, from, onlyFrom: true }, as, solve);
    const way = isFound(byItself) || alone ? byItself : wayOut(bench, { ...LEAST, from }, as, solve);
    const act = isFound(way) ? way.acts.find(({ kind }) => kind === as) : undefined;
    if (!isFound(way) || act === undefined) return [];
    return [cardOf('withdraw', bench, way, { kind: as, params: { vessel: from, mass: act.mass } })];
  });
  return found.toSorted((a, b) => a.change - b.change)[0] ?? null;
};

/** A scoop of a mixture takes the others too, and leaves their proportions as they are: said, where that is all one could think of. */
export const noScoop = (bench: Bench): RemedyCard | null => {
  for (const stand of bench.stands) {
    const inside = bench.mixed.find(({ holds }) => holds[stand.id] !== undefined);
    if (!isOver(stand) || inside === undefined || inside.caustic) continue;
    const held = sumOfAll(Object.values(inside.holds));
    const other = Math.round(PPM * (1 - (inside.holds[stand.id] ?? 0) / held));
    if (other > 0)
      return closedCard('withdraw', 'scoop', 'mixed', { params: { vessel: inside.vessel.plan.id, line: stand.id, ppm: other } });
  }
  return null;
};

/**
 * A part of the pot set aside as a batch of its own, so that what stays is as planned: where it is an oil in the pot that is too much, and
 * the whole cannot be scaled to it.
 */
export const splitCard = (bench: Bench, scale: RemedyCard | null, solve: Solver): RemedyCard | null => {
  if (scale === null || scale.enabled) return null;
  const oils = bench.mixed.find(({ vessel, caustic }) => vessel.plan.use === 'oils' && !caustic);
  if (oils === undefined || !bench.stands.some((stand) => isOver(stand) && oils.holds[stand.id] !== undefined)) return null;
  const way = wayOut(bench, { ...LEAST, from: oils.vessel.plan.id, times: 1 }, 'split-off', solve);
  const act = isFound(way) ? way.acts.find(({ kind }) => kind === 'split-off') : undefined;
  if (!isFound(way) || act === undefined || !('shares' in act)) return null;
  const card = cardOf('split', bench, way, { kind: 'split', params: { vessel: act.vessel, mass: act.mass } });
  return { ...card, ownBatch: ownBatchOf(bench, act.shares).needs };
};
