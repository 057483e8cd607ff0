import { pourable, volumeAt } from '#lib/soap/batter';
import { loafRule } from '#lib/soap/volume';
import { sourceLine, type Estimate } from '#lib/soap/source';
import { sumOf } from '#lib/units/sum';
import type { Pattern } from '../batch/pouring/types';
import type { MouldFill, Sizing } from './answer';
import type { Brim } from './mould-volume';
import type { Whole } from './whole';

/** What sizing needs beside the batch. */
export interface SizeFacts {
  readonly pourAt: number;
  /** `false`: the middle of the window. */
  readonly pourAtSaid: boolean;
  /** Grams that stay in the pot; fraction lost in pouring. */
  readonly residue: number;
  readonly pourLoss: number;
  readonly calibration: { readonly factor: number; readonly u: number; readonly batches: number } | null;
  readonly moulds: readonly ChosenMould[];
}

export interface ChosenMould {
  readonly id: string;
  readonly name: string;
  readonly count: number;
  /** Fraction of the brim wished. */
  readonly fill: number;
  readonly brim: Brim;
  readonly pattern: Pattern | null;
}

/** Volume of the whole batter in cm³, corrected by the maker's own batches. @throws RangeError outside the tables */
export const volumeOf = ({ all }: Whole, { pourAt, calibration }: SizeFacts): Estimate => {
  const volume = volumeAt(all, pourAt, calibration);
  if (calibration === null) return volume;
  return { ...volume, source: { text: `component volumes, corrected by ${calibration.batches} batches of this maker`, grade: 'computed' } };
};

/** cm³ the moulds are to take, filled as wished. */
export const wanted = ({ moulds }: SizeFacts): number => sumOf(moulds, ({ count, fill, brim }) => count * fill * brim.volume.value);

/** Below this a mould is called underfilled. Ours. */
const UNDER = 0.75;
/** A fill that rounds to the brim is not over it. */
const HAIR = 1e-9;

export const sizingOf = (whole: Whole, facts: SizeFacts): Sizing => {
  const batter = volumeOf(whole, facts);
  const density = whole.batter / batter.value;
  const poured = Math.max(0, pourable(batter.value, whole.batter, facts));
  const relative = batter.u / batter.value;
  const room = wanted(facts);
  const moulds = facts.moulds.map((mould) => fillOf(mould, room > 0 ? poured / room : 0, density, relative));
  return {
    batter,
    pourAt: facts.pourAt,
    density,
    residue: facts.residue,
    pourLoss: facts.pourLoss * (batter.value - facts.residue / density) * density,
    toPour: { value: poured, u: poured * relative, source: batter.source },
    calibration: facts.calibration === null ? null : { factor: facts.calibration.factor, batches: facts.calibration.batches },
    moulds,
    loafRule: loafOf(whole, facts),
  };
};

/** All moulds share what there is in proportion to what was wished of each. */
const fillOf = ({ id, name, count, fill, brim }: ChosenMould, times: number, density: number, relative: number): MouldFill => {
  const full = fill * times;
  const batter = full * brim.volume.value;
  const u = full * Math.hypot(relative, brim.volume.u / brim.volume.value);
  const verdict = full > 1 + HAIR ? 'over' : full < UNDER ? 'under' : full + 2 * u > 1 ? 'may-over' : 'fits';
  return {
    mould: id,
    name,
    count,
    brim: brim.volume,
    batter,
    grams: batter * density,
    full,
    u,
    depth: brim.depth,
    sides: brim.sides,
    leftAbove: brim.depth === null ? null : (1 - full) * brim.depth,
    verdict,
  };
};

/** The trade's rule for those moulds that are rectangular, filled as wished, beside the fats of this plan that go into them. */
const loafOf = ({ fats }: Whole, facts: SizeFacts): Sizing['loafRule'] => {
  const loaves = facts.moulds.filter(({ brim }) => brim.rectangular);
  const room = wanted({ ...facts, moulds: loaves });
  if (room === 0) return null;
  const rule = loafRule(room);
  const here = (fats * room) / wanted(facts);
  return { volume: room, fats: rule.value, here, against: here / rule.value - 1, source: sourceLine(rule.source) };
};
