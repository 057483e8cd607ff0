import { effectOf, type Effect } from '#lib/soap/remedy/effect';
import { fragranceLimit, lyeLimits, shareLimits, splitLimits, superfatLimits, type NamedLimit } from '#lib/soap/remedy/limits';
import { excessOf, type Mixture, type Programme, type Quantity } from '#lib/soap/remedy/programme';
import type { VesselId } from '#lib/units/id';
import { own } from '../own';
import type { MaterialClass } from '../plan';
import { verdictOf } from '../verdict';
import type { RemedyFacts, RemedyScale } from './facts';
import { roomLimits } from './room';
import type { Bench } from './bench';
import { toComeOf, untouched, type MixedVessel, type Stand } from './stand';

const GRAM = 1000;
/** What a person types a weight to. Ours. */
const BY_HAND = 1;

/** Which of the ways out a programme may take. */
export interface Ways {
  /** What lies pure or solid in the pot may be taken out. */
  readonly lift: boolean;
  /** Of which mixture a fraction may leave. */
  readonly from: VesselId | null;
  /** Nothing else changes than what leaves that mixture. */
  readonly onlyFrom: boolean;
  /** Every line toward so many times its plan, instead of what is in and the plan; alone, exactly so many times. */
  readonly times: number | null;
  /** What was spilt is poured again, and nothing else changes. */
  readonly again: boolean;
}

export const LEAST: Ways = { lift: false, from: null, onlyFrom: false, times: null, again: false };

export const scaleFor = ({ scales }: RemedyFacts, { line }: Stand): RemedyScale | null =>
  scales.find(({ role }) => role === line.plan.scale) ?? scales[0] ?? null;

const divisionOf = (facts: RemedyFacts, stand: Stand): number | null => {
  if (stand.line.plan.mode === 'by-hand') return BY_HAND;
  const division = scaleFor(facts, stand)?.division ?? null;
  return division === null ? null : division / GRAM;
};

/** Where a line should end, grams: the plan while it is to come or stands by itself and is wrong; else what is in. */
const referenceOf = (stand: Stand, { lift, times }: Ways): number => {
  const { line, standing, mass, open } = stand;
  const planned = line.planned.target;
  if (times !== null) return Math.max((times * planned) / GRAM, standing === 'held' ? mass / GRAM : 0);
  const { target } = line.plan;
  if (open) return untouched(stand) / GRAM;
  const movable = standing === 'cup' || (lift && (standing === 'solid' || standing === 'pot'));
  return (movable && mass > 0 && verdictOf(line.plan, line.actual) !== 'within' ? Math.min(target, mass) : mass) / GRAM;
};

/** Fragrance, acid and what is for looks go down only where they are what is too much: nothing else is mended by leaving them out. */
const isSpared = ({ pot }: Bench, at: number, { standing }: Stand, tooStrong: boolean): boolean => {
  const part = pot.lines[at]?.part;
  return standing === 'to-come' && (part === 'extra' || part === 'acid' || (part === 'fragrance' && !tooStrong));
};

const GROWING: ReadonlySet<MaterialClass> = new Set(['hard-oil', 'liquid-oil', 'hydroxide', 'liquid']);

/** More than planned only of fats, hydroxide and plain water, unless everything is scaled: no acid against lye, no milk for water. */
const mayGrow = ({ line }: Stand, { times }: Ways): boolean => times !== null || GROWING.has(line.plan.material.class);

/** A scaled line is what it is scaled to, to a division either way: less of one would be another recipe. */
const NEAR_SCALED = 1.5;

const quantityOf = (bench: Bench, stand: Stand, at: number, ways: Ways, tooStrong: boolean): Quantity => {
  const { facts } = bench;
  const { id, standing } = stand;
  const [mass, apart] = [stand.mass / GRAM, stand.apart / GRAM];
  const mixed = mass - apart;
  const stock = own(facts.stock, id);
  const left = stock === undefined ? Number.POSITIVE_INFINITY : stock / GRAM;
  const planned = toComeOf(stand) / GRAM;
  const room = stand.up ? Math.min(left, mayGrow(stand, ways) ? left : planned) : 0;
  const reference = referenceOf(stand, ways);
  const division = ways.onlyFrom || standing === 'held' ? null : divisionOf(facts, stand);
  const smallest = Math.max(division ?? 0, (scaleFor(facts, stand)?.smallest ?? 0) / GRAM);
  const movable = standing === 'cup' || (ways.lift && (standing === 'solid' || standing === 'pot'));
  const toCome = standing === 'to-come';
  const still = toCome ? Math.min(apart + room, Math.max(untouched(stand) / GRAM - mixed, apart)) : apart;
  const weighing = { stays: still, from: toCome ? -mixed : apart, division, smallest };
  if (ways.onlyFrom || division === null) return { id, reference, least: still, most: still, weighing };
  if (ways.again) return pouredAgain(stand, { id, reference, least: still, most: still, weighing }, division, apart + room);
  // A line of nothing is no line: what is to come keeps at least what its scale can show.
  const floor = movable ? division : Math.max(apart, toCome && mass === 0 ? division : 0);
  const most = apart + room;
  if (ways.times === null || ways.from !== null)
    return { id, reference, least: isSpared(bench, at, stand, tooStrong) ? still : floor, most, weighing };
  const [low, high] = [reference - mixed - NEAR_SCALED * division, reference - mixed + NEAR_SCALED * division];
  // Without the stock for it there is no scaling: no mass then lies between the two.
  return { id, reference, least: Math.max(floor, low), most: Math.min(most, Math.max(high, floor)), weighing };
};

/** What was lost of a line as a spill took it, mg, as far as it is missing from its target. */
export const spiltOf = ({ line, open, mass }: Stand): number => {
  const lost = line.contributions.reduce((sum, { kind, struck, net }) => (kind === 'lost' && struck === null ? sum - net : sum), 0);
  return open ? 0 : Math.max(0, Math.min(lost, line.plan.target - mass));
};

/** A line that lost something, up to what it lost, to a division; any other stays as it is. */
const pouredAgain = (stand: Stand, still: Quantity, division: number, most: number): Quantity => {
  const lost = spiltOf(stand) / GRAM;
  if (lost === 0) return still;
  const whole = still.least + lost;
  // To its nearest division: anything else would not be the plan again.
  const [low, high] = [whole - division / 2, whole + division / 2];
  return { ...still, reference: (stand.mass + spiltOf(stand)) / GRAM, least: Math.max(still.least, low), most: Math.min(most, high) };
};

/** To throw away more of a mixture than this is to stop. Ours. */
const MOST_TAKEN = 0.5;

const mixtureOf = ({ stands, facts }: Bench, { vessel, holds }: MixedVessel, ways: Ways): Mixture => {
  const divisions = facts.scales.flatMap(({ role, division }) => (role === 'main' && division !== null ? [division / GRAM] : []));
  return {
    id: vessel.plan.id,
    holds: stands.map(({ id }) => (own(holds, id) ?? 0) / GRAM),
    mostTaken: ways.from === vessel.plan.id ? MOST_TAKEN : 0,
    division: divisions[0] ?? null,
  };
};

/** The share of NaOH may be off by so much where there are two alkalis. Ours, no source. */
const SPLIT_WIDTH = 0.02;

const plannedShare = ({ state, stands }: Bench, sodium: readonly number[], supply: readonly number[]): number => {
  const planned = stands.map(({ line }) => line.planned.target);
  const sum = (of: readonly number[]): number => of.reduce((total, one, i) => total + one * (planned[i] ?? 0), 0);
  return state.joined === null && sum(supply) > 0 ? sum(sodium) / sum(supply) : 1;
};

const worked = new WeakMap<Bench['pot'], readonly Effect[]>();

/** What a gram of each line does; worked out once for a pot. */
export const effectsOf = (pot: Bench['pot']): readonly Effect[] => {
  const known = worked.get(pot) ?? pot.lines.map(effectOf);
  worked.set(pot, known);
  return known;
};

/** What the formula asks and the bench bears. `around`: grams near which a volume is taken as straight; `exact`: at which it is told. */
export const limitsOf = (bench: Bench, around: readonly number[], exact = false): readonly NamedLimit[] => {
  const { pot, state } = bench;
  const effects = effectsOf(pot);
  const ids = pot.lines.map(({ id }) => id);
  const share = plannedShare(
    bench,
    effects.map(({ sodium }) => sodium),
    effects.map(({ supply }) => supply),
  );
  return [
    ...superfatLimits(effects, pot.limits.superfat),
    // Once joined there is no lye any more.
    ...(state.joined === null ? lyeLimits(effects, pot.limits.lye) : []),
    ...shareLimits(effects, ids, pot.limits.shares),
    ...fragranceLimit(effects),
    ...splitLimits(effects, share, SPLIT_WIDTH),
    ...roomLimits(bench, around, exact),
  ];
};

export interface NamedProgramme extends Programme {
  readonly limits: readonly NamedLimit[];
}

const standing = new WeakMap<Bench, readonly NamedLimit[]>();

/** The limits about the batch as it stands, where every way out begins. */
const limitsNow = (bench: Bench): readonly NamedLimit[] => {
  const known = standing.get(bench) ?? limitsOf(bench, asItStands(bench));
  standing.set(bench, known);
  return known;
};

/** @param around grams near which volumes are taken as straight; left out, as the batch stands */
export const programmeOf = (bench: Bench, ways: Ways, around?: readonly number[]): NamedProgramme => {
  const limits = around === undefined ? limitsNow(bench) : limitsOf(bench, around);
  const now = asItStands(bench);
  const tooStrong = limits.some((limit) => limit.name === 'fragrance' && excessOf(limit, now) > 0);
  return {
    quantities: bench.stands.map((stand, at) => quantityOf(bench, stand, at, ways, tooStrong)),
    mixtures: bench.mixed.map((one) => mixtureOf(bench, one, ways)),
    limits,
  };
};

/** Grams of every line if nothing is done: what is in, and what is to come at its target. */
export const asItStands = ({ stands }: Bench): readonly number[] => stands.map((stand) => untouched(stand) / GRAM);
