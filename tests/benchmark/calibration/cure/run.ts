import { forecastCure, learnFrom, seededNumbers, UNKNOWN_MAKER, type CureForecast, type CureWatch, type Day } from '#lib/soap/shrink/index';
import { createRandom } from '../random';
import { lotsOf, trulyReady, weighed, type TrueLot } from './workshop';

export interface Stage {
  readonly name: string;
  readonly days: readonly number[];
}

export const STAGES: readonly Stage[] = [
  { name: 'at cutting', days: [] },
  { name: 'after 14 days', days: [7, 14] },
  { name: 'after 28 days', days: [7, 14, 28] },
];
/** What a finished lot teaches. */
const FINISHED = [7, 14, 28, 60];
const PER_WEEK = 0.005;

export interface Told {
  readonly lot: number;
  readonly stage: Stage;
  readonly moved: boolean;
  readonly ready: {
    readonly truth: number;
    readonly inside: boolean;
    readonly below: boolean;
    readonly above: boolean;
    /** Days; infinity for an open end. */
    readonly width: number;
  };
  readonly weight60: boolean;
  readonly weight120: boolean;
}

const dayOf = (day: Day): number => (day === 'later' ? Number.POSITIVE_INFINITY : day);

const inside = (truth: number, { low, high }: { readonly low: Day; readonly high: Day }): boolean =>
  truth >= dayOf(low) && truth <= dayOf(high);

const holds = (forecast: CureForecast, lot: TrueLot, day: number): boolean => {
  const { low, high } = forecast.loss[day] as { low: number; high: number };
  const truth = lot.loss[day] as number;
  return truth >= low && truth <= high;
};

/** Every lot of one maker at every stage, each with what earlier lots have taught. */
export const runMaker = (seed: number, maker: number, count: number): readonly Told[] => {
  const random = createRandom(seed ^ 0x5eed, maker);
  let belief = UNKNOWN_MAKER;
  return lotsOf(seed, maker, count).flatMap((lot, number) => {
    const common = { water: lot.water, bars: lot.bars, cutWeight: lot.cutWeight, step: lot.step };
    const all = weighed(lot, FINISHED, random);
    const told = STAGES.map((stage): Told => {
      const watch: CureWatch = { ...common, weighings: all.filter(({ day }) => stage.days.includes(day)) };
      const byLoss = forecastCure({
        watch,
        rule: { days: null, perWeek: PER_WEEK },
        today: stage.days.at(-1) ?? 0,
        maker: belief,
        uniform: seededNumbers(number * 7919 + maker),
      });
      const truth = trulyReady(lot.loss, 0, PER_WEEK);
      const { low, high } = byLoss.ready;
      return {
        lot: number,
        stage,
        moved: lot.moved,
        ready: {
          truth,
          inside: inside(truth, byLoss.ready),
          below: truth < dayOf(low),
          above: truth > dayOf(high),
          width: dayOf(high) - (low === 'later' ? 0 : low),
        },
        weight60: holds(byLoss, lot, 60),
        weight120: holds(byLoss, lot, 120),
      };
    });
    belief = learnFrom([{ ...common, weighings: all }], belief);
    return told;
  });
};
