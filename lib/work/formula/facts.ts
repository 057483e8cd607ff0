import type { PlanPart } from '../batch/pouring/types';
import { batterPartsOf } from './batter-parts';
import type { PlanContext } from './context';
import type { Formula, Temperatures } from './formula';
import type { Lookup } from './lookup';
import { brimOf } from './mould-volume';
import { gramsIn, HEAVIEST_GRAMS, type Reader } from './reader';
import type { ChosenMould, SizeFacts } from './sizing';
import type { SizeWish } from './size';

/** Everything about a batch that is not a mass: read once, checked. Temperatures in °C. */
export interface Facts {
  readonly size: SizeFacts;
  readonly parts: readonly PlanPart[];
  readonly wish: SizeWish;
  readonly joining: JoiningFacts;
  readonly room: { readonly celsius: number; readonly said: boolean };
  /** Fractions; `null`: the usual width about what was asked. */
  readonly superfatLimits: readonly [number, number] | null;
  readonly lyeLimits: readonly [number, number] | null;
}

export interface JoiningFacts {
  readonly low: number;
  readonly high: number;
  readonly apart: number;
  readonly apartLevel: Temperatures['apartLevel'];
  readonly setsAt: number | null;
  readonly milkLimit: number | null;
  readonly said: boolean;
}

/** 30–50 °C and 6 K apart: common practice, no source. */
const USUAL = { low: 30, high: 50, apart: 6 } as const;
const ROOM = 20;
const COLDEST_ROOM = 0;
const HOTTEST_ROOM = 45;
const MOST_BARS = 100_000;
const MOST_MOULDS = 1000;

const fractions = (band: readonly [number, number] | null): readonly [number, number] | null =>
  band === null ? null : [band[0] / 100, band[1] / 100];

/** `null` after noting what is wrong. */
export const factsOf = (formula: Formula, lookup: Lookup, reader: Reader): Facts | null => {
  const before = reader.problems.length;
  const { context } = lookup;
  const joining = joiningOf(formula.temperatures, reader);
  const pourAt = formula.temperatures?.pourAt ?? null;
  const celsius = context.room === null ? ROOM : reader.within(context.room, 'context.room', COLDEST_ROOM, HOTTEST_ROOM);
  const { superfat, lye } = formula.limits;
  const superfatLimits = superfat === null ? null : reader.band(superfat, 'limits.superfat', -100, 100);
  const lyeLimits = lye === null ? null : reader.band(lye, 'limits.lye', 0, 100);
  const poured = pourAt === null ? (joining.low + joining.high) / 2 : reader.within(pourAt, 'temperatures.pourAt', 10, 85);
  const losses = lossesOf(context, reader);
  const calibration = calibrationOf(context, reader);
  const moulds = mouldsOf(formula, lookup, reader);
  const parts = batterPartsOf(formula, reader);
  const wish = wishOf(formula, reader);
  if (reader.problems.length > before || celsius === null || poured === null || wish === null) return null;
  return {
    size: { pourAt: poured, pourAtSaid: pourAt !== null, ...losses, calibration, moulds },
    parts,
    wish,
    joining,
    room: { celsius, said: context.room !== null },
    superfatLimits: fractions(superfatLimits),
    lyeLimits: fractions(lyeLimits),
  };
};

const joiningOf = (temperatures: Temperatures | null, reader: Reader): JoiningFacts => {
  if (temperatures === null) return { ...USUAL, apartLevel: 'hold', setsAt: null, milkLimit: null, said: false };
  const window = reader.band(temperatures.window, 'temperatures.window', 10, 85);
  const apart = reader.within(temperatures.apart, 'temperatures.apart', 0, 60);
  const optional = (text: string | null, path: string): number | null => (text === null ? null : reader.within(text, path, 0, 100));
  return {
    low: window?.[0] ?? USUAL.low,
    high: window?.[1] ?? USUAL.high,
    apart: apart ?? USUAL.apart,
    apartLevel: temperatures.apartLevel,
    setsAt: optional(temperatures.setsAt, 'temperatures.setsAt'),
    milkLimit: optional(temperatures.milkLimit, 'temperatures.milkLimit'),
    said: true,
  };
};

const lossesOf = ({ losses }: PlanContext, reader: Reader): { residue: number; pourLoss: number } => ({
  residue: losses.residue === null ? 0 : (reader.within(losses.residue.grams, 'context.losses.residue', 0, HEAVIEST_GRAMS) ?? 0),
  pourLoss: losses.pour === null ? 0 : (reader.within(losses.pour.percent, 'context.losses.pour', 0, 50) ?? 0) / 100,
});

const calibrationOf = ({ calibration }: PlanContext, reader: Reader): SizeFacts['calibration'] => {
  if (calibration === null) return null;
  const factor = reader.within(calibration.factor, 'context.calibration.factor', 0.5, 2);
  const u = reader.within(calibration.u, 'context.calibration.u', 0, 1);
  const batches = reader.count(calibration.batches, 'context.calibration.batches', 1_000_000);
  return factor === null || u === null || batches === null ? null : { factor, u, batches };
};

const mouldsOf = ({ moulds, size }: Formula, lookup: Lookup, reader: Reader): readonly ChosenMould[] => {
  if (size?.kind === 'moulds' && moulds.length === 0) reader.note('missing', 'moulds');
  return moulds.flatMap((use, at): ChosenMould[] => {
    const path = `moulds[${at}]`;
    const count = reader.count(use.count, `${path}.count`, MOST_MOULDS);
    const fill = reader.percent(use.fill, `${path}.fill`, 'above-zero');
    const mould = lookup.mould(use.mould);
    if (mould === undefined) {
      reader.note('unknown-mould', `${path}.mould`, { mould: use.mould });
      return [];
    }
    const brim = brimOf(mould, reader);
    return count === null || fill === null || brim === null
      ? []
      : [{ id: mould.id, name: mould.name, count, fill, brim, pattern: use.pattern ?? null }];
  });
};

const wishOf = ({ size }: Formula, reader: Reader): SizeWish | null => {
  if (size === null) return { kind: 'as-typed' };
  if (size.kind === 'moulds') return size;
  const grams = reader.mass(size.value, size.unit, 'size.value');
  if (size.kind !== 'bars') return grams === null ? null : { kind: size.kind, grams };
  const count = reader.count(size.count, 'size.count', MOST_BARS);
  if (grams === null || count === null) return null;
  const all = count * grams;
  return all > HEAVIEST_GRAMS
    ? reader.note('too-large', 'size.count', { value: all / gramsIn(size.unit), most: HEAVIEST_GRAMS })
    : { kind: 'bars', grams: all };
};
