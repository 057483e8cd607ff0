import { sumOf } from '#lib/units/sum';
import type { Belief } from '#lib/soap/poured/types';
import { as, type InstrumentId, type MaterialId } from '#lib/units/id';
import type { BelievedBasis, BeliefBasis, LineBasis, PouredBasis, ScaleBasis, SizingBasis } from '../batch/poured/basis';
import type { Balance } from './chemistry';
import type { Scale } from './context';
import type { Facts } from './facts';
import { decimal, numberOf } from './figure';
import type { Line } from './lines';
import type { Found } from './lookup';
import type { AlkaliIn, FatIn } from './makeup';
import { makeupOf } from './makeup-of';
import { inJug } from './per-gram';
import { createReader } from './reader';
import { limitOf } from './room';

type Believed<T> = T & { readonly index: number };

const ofFat = ({ sv, belief }: FatIn): BelievedBasis =>
  belief.kind === 'range'
    ? { kind: 'range', value: decimal(sv), low: decimal(belief.low), high: decimal(belief.high) }
    : { kind: belief.kind, value: decimal(sv), u: decimal(belief.u) };

const ofAlkali = ({ purity, uPurity, purityKind }: AlkaliIn): BelievedBasis => ({
  kind: purityKind,
  value: decimal(purity),
  u: decimal(uPurity),
});

/** What is believed of the material itself, when the line is of another lot than the plan was computed for. */
const otherwiseOf = ({ material, lot }: Found, of: Belief['of']): BelievedBasis | null => {
  if (material === null || lot === null) return null;
  const plain = makeupOf(material, null, createReader(), '');
  const [fat] = plain?.fats ?? [];
  const [alkali] = plain?.alkalis ?? [];
  if (of === 'sv') return fat === undefined ? null : ofFat(fat);
  return alkali === undefined ? null : ofAlkali(alkali);
};

/** Gathers what is believed, once for each lot of each material. */
const beliefsOf = () => {
  const all: BeliefBasis[] = [];
  const known = new Map<string, number>();
  const add = (of: Belief['of'], believed: BelievedBasis, { material, name, lot }: FatIn | AlkaliIn, found: Found): number => {
    const key = JSON.stringify([of, material, lot, believed]);
    const before = known.get(key);
    if (before !== undefined) return before;
    const otherwise = otherwiseOf(found, of);
    all.push({
      ...believed,
      of,
      material,
      name,
      lot: found.lot?.id === lot ? (found.lot?.mark ?? null) : lot,
      ...(otherwise === null ? {} : { otherwise }),
    });
    known.set(key, all.length - 1);
    return all.length - 1;
  };
  return { all, add };
};

type Beliefs = ReturnType<typeof beliefsOf>;

const lineBasis = ({ plan, item }: Line, beliefs: Beliefs): LineBasis => {
  const { makeup } = item.found;
  const withIndex = <T extends FatIn | AlkaliIn>(of: Belief['of'], one: T, believed: BelievedBasis): Believed<T> => ({
    ...one,
    index: beliefs.add(of, believed, one, item.found),
  });
  const limit = item.part === 'fragrance' ? limitOf(item) : null;
  return {
    line: plan.id,
    material: as<MaterialId>(item.found.id),
    lot: plan.lot?.id ?? null,
    part: item.part,
    inLye: inJug(item),
    limit: limit === null ? null : decimal(limit),
    fats: makeup.fats
      .filter(({ mass }) => mass > 0)
      .map((fat) => withIndex('sv', fat, ofFat(fat)))
      .map(({ index, mass, kind, acidValue, unsaponifiable, density }) => ({
        belief: index,
        mass: decimal(mass),
        kind: kind ?? 'triglyceride',
        acidValue: decimal(acidValue ?? 0),
        unsaponifiable: decimal(unsaponifiable ?? 0),
        density: decimal(density.value),
        celsius: decimal(density.celsius),
      })),
    alkalis: makeup.alkalis
      .filter(({ mass }) => mass > 0)
      .map((alkali) => withIndex('purity', alkali, ofAlkali(alkali)))
      .map(({ index, mass, kind, restIsWater }) => ({
        belief: index,
        mass: decimal(mass),
        kind,
        restIsWater: restIsWater === undefined ? null : decimal(restIsWater),
      })),
    acids: makeup.acids.map(({ mass, strength, molesPerGram, crystalWater }) => ({
      mass: decimal(mass),
      strength: decimal(strength),
      molesPerGram: decimal(molesPerGram),
      crystalWater: decimal(crystalWater ?? 0),
    })),
    water: decimal(makeup.water),
    inert: makeup.inert.map(({ mass, density }) => ({ mass: decimal(mass), density: decimal(density.value), u: decimal(density.u) })),
  };
};

const sizingBasis = ({ pourAt, residue, pourLoss, calibration, moulds }: Facts['size']): SizingBasis => {
  const value = sumOf(moulds, ({ count, brim }) => count * brim.volume.value);
  // Moulds of one kind were measured once: their error is common; of several kinds, each its own.
  const u = Math.hypot(...moulds.map(({ count, brim }) => count * brim.volume.u));
  return {
    pourAt: decimal(pourAt),
    residue: decimal(residue),
    pourLoss: decimal(pourLoss),
    calibration: calibration === null ? null : { factor: decimal(calibration.factor), u: decimal(calibration.u) },
    brim: moulds.length === 0 ? null : { value: decimal(value), u: decimal(u) },
  };
};

const scaleBasis = ({ id, role, capacity, division, repeatability }: Scale): ScaleBasis => {
  const spread = repeatability === null ? null : numberOf(repeatability.value);
  return { instrument: as<InstrumentId>(id), role, capacity, division, repeatability: spread === null ? null : decimal(spread) };
};

const band = ([low, high]: readonly [number, number]): readonly [string, string] => [decimal(low), decimal(high)];

/** What a batch needs to know of its plan to be worked out as poured. */
export const pouredBasisOf = (lines: readonly Line[], balance: Balance, facts: Facts, scales: readonly Scale[]): PouredBasis => {
  const beliefs = beliefsOf();
  const based = lines.map((line) => lineBasis(line, beliefs));
  return {
    beliefs: beliefs.all,
    lines: based,
    sizing: sizingBasis(facts.size),
    limits: {
      superfat: band(balance.superfatBand),
      lye: band(balance.lyeBand),
      shares: lines.flatMap(({ plan, item }) => {
        const { keep } = item.entry;
        const [low, high] = [numberOf(keep?.low ?? ''), numberOf(keep?.high ?? '')];
        return low === null || high === null ? [] : [{ line: plan.id, low: decimal(low / 100), high: decimal(high / 100) }];
      }),
    },
    scales: scales.map(scaleBasis),
  };
};
