import { createRandom, type Random } from '../random';
import { dryBrick, type Brick } from './brick';

/** A simulated maker's lots, none of it drawn from the program's law or belief. */
export interface TrueLot {
  /** Water as the maker states it, as a fraction of the bar at cutting. */
  readonly water: number;
  /** Loss by whole day, as a fraction of the weight at cutting: the truth. */
  readonly loss: Float64Array;
  readonly cutWeight: number;
  readonly bars: number;
  readonly step: number;
  /** The room was changed while it dried. */
  readonly moved: boolean;
}

export const TRUE_DAYS = 134;
/** A move in so many of a hundred lots. */
const MOVES = 0.15;
const YEAR = 365;

interface Maker {
  readonly brick: Brick;
  readonly humid: number;
  readonly season: number;
  readonly water: number;
  readonly cutWeight: number;
  readonly bars: number;
  readonly step: number;
}

const makerOf = (random: Random): Maker => ({
  brick: {
    half: [random.between(10, 15), random.between(26, 36), random.between(32, 45)],
    diffusivity: random.logBetween(1.5, 8),
    falls: random.between(2, 7),
    level: random.between(0.1, 0.15),
    power: random.between(0.3, 0.45),
    leaves: random.logBetween(0.3, 2),
    airy: random.between(0.6, 1),
    content: 0,
  },
  humid: random.between(0.42, 0.62),
  season: random.between(0.02, 0.09),
  water: random.between(0.17, 0.27),
  cutWeight: random.between(80, 160),
  bars: random.pick([1, 2, 3, 5]),
  step: random.pick([0.1, 0.1, 0.5, 1]),
});

/** Relative humidity by day: a season, wet and dry spells of some days, and a move to another room in some lots. */
const roomOf = (maker: Maker, start: number, random: Random): { readonly humid: Float64Array; readonly moved: boolean } => {
  const moved = random.chance(MOVES);
  const at = moved ? random.between(8, 100) : Number.POSITIVE_INFINITY;
  const by = random.between(0.06, 0.18) * (random.chance(0.5) ? 1 : -1);
  const humid = new Float64Array(TRUE_DAYS + 1);
  let spell = 0;
  for (let day = 0; day <= TRUE_DAYS; day += 1) {
    if (random.chance(0.2)) spell = random.between(-0.08, 0.08);
    const season = maker.season * Math.sin((2 * Math.PI * (start + day)) / YEAR);
    humid[day] = Math.min(0.85, Math.max(0.2, maker.humid + season + spell + (day >= at ? by : 0)));
  }
  return { humid, moved };
};

const lotOf = (maker: Maker, start: number, random: Random): TrueLot => {
  const stated = maker.water + random.between(-0.015, 0.015);
  // Some water is gone before the knife, and scales of kitchens weigh it as they do.
  const really = stated + random.between(-0.012, 0.004);
  const content = really / (1 - really);
  const brick: Brick = {
    ...maker.brick,
    half: maker.brick.half.map((half) => half * random.between(0.94, 1.06)) as [number, number, number],
    diffusivity: maker.brick.diffusivity * Math.exp(0.25 * random.gauss()),
    level: maker.brick.level * random.between(0.95, 1.05),
    leaves: maker.brick.leaves * random.between(0.8, 1.25),
    content,
  };
  const { humid, moved } = roomOf(maker, start, random);
  const warmer = random.between(0, 0.15);
  const warmth = (day: number): number => 1 + warmer * Math.sin((2 * Math.PI * (start + day)) / YEAR);
  const means = dryBrick(brick, (day) => humid[day] as number, warmth, TRUE_DAYS);
  return {
    water: stated,
    loss: means.map((mean) => (content - mean) * (1 - really)),
    cutWeight: maker.cutWeight,
    bars: maker.bars,
    step: maker.step,
    moved,
  };
};

/** One maker's lots, three to seven weeks after one another. */
export const lotsOf = (seed: number, maker: number, count: number): readonly TrueLot[] => {
  const random = createRandom(seed, maker);
  const who = makerOf(random);
  let start = random.between(0, YEAR);
  return Array.from({ length: count }, () => {
    start += random.between(20, 50);
    return lotOf(who, start, random);
  });
};

/** What the scale says of the tracked bars on a day, as a loss: each bar rounded to its step, at cutting too. */
export const weighed = (
  lot: TrueLot,
  days: readonly number[],
  random: Random,
): readonly { readonly day: number; readonly loss: number }[] => {
  const { bars, step, cutWeight } = lot;
  const rounded = (grams: number): number => Math.round((grams + 0.03 * random.gauss()) / step) * step;
  const each = Array.from({ length: bars }, () => ({ cut: cutWeight * (1 + 0.03 * random.gauss()), own: 0.0024 * random.gauss() }));
  const first = each.reduce((sum, { cut }) => sum + rounded(cut), 0);
  return days.map((day) => {
    const then = each.reduce((sum, { cut, own }) => sum + rounded(cut * (1 - (lot.loss[day] as number) - own * Math.min(1, day / 30))), 0);
    return { day, loss: 1 - then / first };
  });
};

/** The first whole day from `from` on which the true loss over the last 14 days was below `perWeek` a week; infinity for none by day 120. */
export const trulyReady = (loss: Float64Array, from: number, perWeek: number): number => {
  for (let day = Math.max(from, 14); day <= 120; day += 1)
    if (((loss[day] as number) - (loss[day - 14] as number)) / 2 < perWeek) return day;
  return Number.POSITIVE_INFINITY;
};
