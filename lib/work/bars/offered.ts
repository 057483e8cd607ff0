import { wholeOf } from '#lib/soap/poured/whole';
import { sumOf } from '#lib/units/sum';
import type { Milligrams } from '#lib/units/mass';
import type { BatchState, LineState } from '../batch/index';
import { asPoured } from '../batch/poured/as-poured';
import { massOf } from '../batch/pouring/amounts';
import { mouldsIn } from '../batch/pouring/places';
import { standing as notStruck } from '../batch/pouring/types';
import { numberOf } from '../formula/index';
import type { Formula, Lot, Material, Mould } from '../formula/index';
import type { BarsBodies, BarsTraits, MouldKept } from './entries';

/** What the workshop says of a batch's materials and moulds when its bars are begun. */
export interface Workshop {
  mould(id: string): Mould | null;
  material(id: string): Material | null;
  lot(id: string): Lot | null;
  /** The version the batch was made from; `null` where it is not kept here. */
  formula(id: string, version: number): Formula | null;
}

/** A mould of a closed batch that bars can be begun from. */
export interface Offered {
  readonly n: number;
  readonly mark: string;
  readonly mould: MouldKept;
  readonly batter: Milligrams | null;
  readonly pattern: string;
}

const MICROMETRES = 1000;
const MILLION = 1e6;

/** Whole µm of a length typed in mm. */
const micrometres = (typed: string): number | null => {
  const mm = numberOf(typed);
  return mm === null || mm <= 0 ? null : Math.round(mm * MICROMETRES);
};

const UNMEASURED = { length: null, width: null, depth: null };

/** A log for what is cut; bars where each cavity is one. */
export const mouldKept = (mould: Mould): MouldKept => {
  const { id, name, shape } = mould;
  if (shape.kind === 'box') {
    const { length, width, depth } = shape;
    const inside = { length: micrometres(length), width: micrometres(width), depth: micrometres(depth) };
    return { id, name, gives: 'log', cavities: 1, ...inside };
  }
  if (shape.kind === 'cylinder') {
    const across = micrometres(shape.diameter);
    return { id, name, gives: 'log', cavities: 1, length: micrometres(shape.length), width: across, depth: across };
  }
  return { id, name, gives: shape.kind === 'tray' || shape.cavities > 1 ? 'bars' : 'log', cavities: shape.cavities, ...UNMEASURED };
};

const unnamed = (name: string): MouldKept => ({ id: null, name, gives: 'log', cavities: 1, ...UNMEASURED });

interface Poured {
  readonly n: number;
  readonly mould: MouldKept;
  readonly batter: Milligrams | null;
  readonly pattern: string;
}

/** As poured at the bench; of older batches what the formula names; else one mould nobody has named. */
const mouldsOf = (batch: BatchState, workshop: Workshop): readonly Poured[] => {
  const kept = (id: string, name: string): MouldKept => {
    const mould = workshop.mould(id);
    return mould === null ? unnamed(name) : mouldKept(mould);
  };
  const atBench = mouldsIn(batch).map(({ n, mould, name, pattern }) => {
    const pours = notStruck(batch.pour.pours).filter((pour) => pour.mould === n);
    return { n, mould: kept(mould, name), batter: pours.length === 0 ? null : massOf(pours), pattern: pattern ?? '' };
  });
  if (atBench.length > 0) return atBench;
  const uses = workshop.formula(batch.plan.formula.id, batch.plan.formula.version)?.moulds ?? [];
  const named = uses.flatMap(({ mould, count }) => Array.from({ length: count }, () => kept(mould, mould)));
  return (named.length > 0 ? named : [unnamed('mould')]).map((mould, at) => ({ n: at + 1, mould, batter: null, pattern: '' }));
};

export const offeredOf = (batch: BatchState, workshop: Workshop): readonly Offered[] =>
  mouldsOf(batch, workshop).map((one) => ({ ...one, mark: `${batch.mark}/${one.n}` }));

/** % of water in a line of a batch whose numbers were typed: of the material where it is known, else by its class alone. */
const wetness = ({ plan }: LineState, workshop: Workshop): number | null => {
  const material = workshop.material(plan.material.id);
  if (material?.kind === 'liquid') return numberOf(material.water.value);
  if (plan.material.class === 'liquid') return 100;
  return plan.material.class === 'milk' || plan.inSolution === true ? null : 0;
};

const waterTyped = (batch: BatchState, workshop: Workshop): number | null => {
  const lines = Object.values(batch.lines).map((line) => ({ mass: line.actual, wet: wetness(line, workshop) }));
  const whole = sumOf(lines, ({ mass }) => mass);
  // Soap is not made without water: where none is found, nobody has said what brings it.
  if (lines.some(({ wet }) => wet === null) || sumOf(lines, ({ mass, wet }) => mass * (wet ?? 0)) <= 0) return null;
  return Math.round((sumOf(lines, ({ mass, wet }) => (mass * (wet ?? 0)) / 100) / whole) * MILLION);
};

/** Water in the batter, millionths by mass; `null` where nobody can say. */
const waterOf = (batch: BatchState, workshop: Workshop): number | null => {
  const answer = asPoured(batch);
  if (answer.kind !== 'figures') return waterTyped(batch, workshop);
  const { batter, driest } = wholeOf(answer.pot, answer.masses.grams);
  return batter > 0 ? Math.round((1 - driest / batter) * MILLION) : null;
};

/** So much salt makes a bar of salt. Common practice, no source: such bars hold a tenth of the batter and more. */
const SALT_BAR = 0.05;

const traitsOf = (batch: BatchState, workshop: Workshop): BarsTraits => {
  const lines = Object.values(batch.lines);
  const whole = lines.reduce((sum, { actual }) => sum + actual, 0);
  const of = ({ plan }: (typeof lines)[number]): Material | null => workshop.material(plan.material.id);
  const salt = lines.filter((line) => {
    const material = of(line);
    return material?.kind === 'additive' && material.like === 'salt';
  });
  const vanillin = lines.some((line) => {
    const material = of(line);
    if (material?.kind !== 'fragrance') return false;
    const lot = line.plan.lot === null ? null : workshop.lot(line.plan.lot.id);
    return (numberOf(lot?.certificate?.vanillin ?? material.vanillin?.value ?? '0') ?? 0) > 0;
  });
  return {
    salt: whole > 0 && salt.reduce((sum, { actual }) => sum + actual, 0) / whole >= SALT_BAR,
    wax: lines.some((line) => of(line)?.kind === 'wax'),
    vanillin,
  };
};

/** What bars of some moulds of a closed batch begin with. */
export const begunFrom = (batch: BatchState, workshop: Workshop, moulds: readonly Offered[]): BarsBodies['bars-begun'] | null => {
  const [first] = moulds;
  if (first === undefined) return null;
  const batter = moulds.every((one) => one.batter !== null) ? moulds.reduce((sum, one) => sum + (one.batter ?? 0), 0) : null;
  return {
    of: { batch: batch.id, mark: batch.mark, formula: batch.plan.formula },
    n: first.n,
    moulds: moulds.map(({ n }) => n),
    mark: first.mark,
    mould: first.mould,
    poured: batch.joined?.wall ?? batch.endedWall ?? batch.startedWall,
    batter: batter as Milligrams | null,
    water: waterOf(batch, workshop),
    pattern: first.pattern,
    traits: traitsOf(batch, workshop),
  };
};
