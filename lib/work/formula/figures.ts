import { acidTake } from '#lib/soap/acid';
import { pureMass } from '#lib/soap/alkali';
import { waterOf } from '#lib/soap/batter';
import { allergensIn, fragranceLoad, type FragrancePortion } from '#lib/soap/fragrance';
import { lyeDensity } from '#lib/soap/lye/density';
import { mixingPeak, type Mixing } from '#lib/soap/lye/mixing-peak';
import { react, type Reacted } from '#lib/soap/reaction';
import type { Estimate } from '#lib/soap/source';
import { sumOf } from '#lib/units/sum';
import type { FragranceFigures, PlanFigures, SuperfatFigures } from './answer';
import type { Balance } from './chemistry';
import { numberOf } from './figure';
import type { Model } from './model';
import { inJug } from './per-gram';
import { limitOf } from './room';
import type { Believed } from './interval';
import type { Whole } from './whole';

/** The batter after the reaction. */
export const reacted = ({ all }: Whole): Reacted =>
  react({ fats: all.fats, alkalis: all.alkalis, acids: all.acids, water: all.water, inert: sumOf(all.inert, ({ mass }) => mass) });

/** Grams of the bars with all their water gone: the least they can weigh, at which what they hold is strongest. */
export const driestOf = (after: Reacted): number => after.total - after.water;

/** Hydroxide as a fraction of hydroxide and water in the jug: what tables go by. */
export const strengthOf = ({ jug }: Whole): { readonly naoh: number; readonly koh: number } => {
  const pure = (kind: 'NaOH' | 'KOH'): number => sumOf(jug.alkalis, (one) => (one.kind === kind ? pureMass(one) : 0));
  const [naoh, koh] = [pure('NaOH'), pure('KOH')];
  const solution = naoh + koh + waterOf(jug);
  return { naoh: naoh / solution, koh: koh / solution };
};

/** What meets in the jug; `null` where nothing dry is dissolved. */
export const mixingOf = (model: Model, whole: Whole): Mixing | null => {
  const dry = whole.jug.alkalis.filter(({ dissolved }) => !dissolved);
  const pure = (kind: 'NaOH' | 'KOH'): number => sumOf(dry, (one) => (one.kind === kind ? pureMass(one) : 0));
  const [naoh, koh] = [pure('NaOH'), pure('KOH')];
  const water = waterOf(whole.jug);
  if (naoh + koh === 0 || water === 0) return null;
  const frozen = sumOf([...model.items.entries()], ([at, item]) => (item.entry.frozen && inJug(item) ? (whole.each[at]?.water ?? 0) : 0));
  return { naoh, koh, water, frozen: Math.min(frozen, water), acid: acidTake(whole.jug.acids) };
};

/** °C the jug would reach if no heat left it; `null` where it is not known, or nothing dry is dissolved. */
export const peakOf = (model: Model, whole: Whole, room: number): Estimate | null => {
  const mixing = mixingOf(model, whole);
  if (mixing === null) return null;
  try {
    return mixingPeak(mixing, room);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
};

/** Whether the tables know this lye at all. */
export const lyeIsTabled = (whole: Whole): boolean => {
  const { naoh, koh } = strengthOf(whole);
  try {
    return Number.isFinite(lyeDensity({ naoh, koh }, 20).value);
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
};

const fragranceOf = (model: Model, whole: Whole, driest: number): FragranceFigures => {
  const blend = model.items.flatMap((item, at): FragrancePortion[] => {
    if (item.part !== 'fragrance') return [];
    const allergens = Object.fromEntries(
      (item.found.lot?.certificate?.allergens ?? []).map(({ name, percent }) => [name, (numberOf(percent) ?? 0) / 100]),
    );
    return [{ name: item.found.name, mass: whole.grams[at] ?? 0, limit: limitOf(item), allergens }];
  });
  return { driest, verdict: fragranceLoad(blend, driest), allergens: allergensIn(blend, driest) };
};

const superfatFigures = ({ interval }: Believed): SuperfatFigures => {
  const { working, expected, u, low, high, worst, lyeHeavy } = interval;
  return { working, expected, u, low, high, worst, lyeHeavy };
};

/** Of all fats together, where each is known; else `null`: a part that is not known is no zero. */
const blendOf = (whole: Whole): Pick<PlanFigures, 'iodine' | 'linoleicAndLinolenic'> => {
  const fats = whole.all.fats.filter(({ mass }) => mass > 0);
  const total = sumOf(fats, ({ mass }) => mass);
  const mean = (of: (fat: (typeof fats)[number]) => number | null): number | null => {
    const values = fats.map((fat) => ({ mass: fat.mass, value: of(fat) }));
    // Milk fat and the like are a small part: left out of the mean rather than making it unknown.
    const known = values.filter(({ value }) => value !== null);
    const mass = sumOf(known, (one) => one.mass);
    return mass < MOSTLY * total ? null : sumOf(known, (one) => one.mass * (one.value ?? 0)) / mass;
  };
  return {
    iodine: mean(({ iodine }) => iodine),
    linoleicAndLinolenic: mean(({ profile }) => (profile === null ? null : ((profile['18:2'] ?? 0) + (profile['18:3'] ?? 0)) / 100)),
  };
};

const MOSTLY = 0.9;

/** Saturated acids of all fats, as a fraction; `null` where too little is known. They make a bar hard. */
export const saturatedOf = (whole: Whole): number | null => {
  const fats = whole.all.fats.filter(({ mass, profile }) => mass > 0 && profile !== null);
  const mass = sumOf(fats, (fat) => fat.mass);
  if (mass < MOSTLY * sumOf(whole.all.fats, (fat) => fat.mass)) return null;
  const share = (acid: '12:0' | '14:0' | '16:0' | '18:0'): number => sumOf(fats, (fat) => (fat.mass * (fat.profile?.[acid] ?? 0)) / 100);
  return (share('12:0') + share('14:0') + share('16:0') + share('18:0')) / mass;
};

export const figuresOf = (model: Model, whole: Whole, balance: Balance, belief: Believed, peak: Estimate | null): PlanFigures => {
  const after = reacted(whole);
  return {
    fats: whole.fats,
    batter: whole.batter,
    superfat: superfatFigures(belief),
    lyeConcentration: balance.concentration,
    lyeStrength: strengthOf(whole),
    naohShare: balance.naohShare,
    alkaliMoles: balance.supply,
    fatDemandMoles: balance.demand,
    acidDemandMoles: balance.acid,
    waterBefore: waterOf(whole.all),
    waterAfter: after.water,
    soap: after.soap,
    glycerol: after.glycerol,
    freeFat: after.freeFat,
    ...blendOf(whole),
    mixingPeak: peak,
    fragrance: fragranceOf(model, whole, driestOf(after)),
  };
};
