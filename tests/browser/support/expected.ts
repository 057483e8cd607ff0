import type { ForecastLane, VesselLane } from '#lib/protocol/forecast';

const forecast = (from: number, to: number, within: number): VesselLane => ({
  outlook: {
    kind: 'forecast',
    since: 0,
    until: 3_600,
    setting: false,
    ahead: [0, 300, 600, 1_200, 2_400, 3_600].map((after) => {
      const middle = to + (from - to) * Math.exp(-after / 1_500);
      const half = within * (1 - Math.exp(-after / 600)) + 200;
      return [after, Math.round(middle - half), Math.round(middle), Math.round(middle + half)] as const;
    }),
  },
  marks: [],
});

/** Lye far above oils, both understood. `at`: ms of the server's clock. */
export const APART = (at: number): ForecastLane => ({
  boot: 'boot-1',
  at,
  batch: null,
  lye: { ...forecast(79_600, 24_000, 3_000), marks: [{ turn: 'faster', since: at / 1000 - 240, noticed: at / 1000 - 140 }] },
  oils: forecast(45_300, 23_000, 1_500),
  making: {
    start: 21_000,
    likely: { value: 81_400, u: 2_100 },
    atMost: { value: 86_900, u: 1_800 },
    advice: null,
    found: { highest: 80_200, verdict: 'as-foretold', reached: 98 },
  },
  swapped: false,
  meeting: {
    kind: 'meeting',
    when: { kind: 'in', low: 851, middle: 980, high: 1_139 },
    joinable: { kind: 'in', low: 851, middle: 980, high: 1_139 },
    against: [{ reason: 'lye-too-hot', level: 'hold' }],
    acts: [{ kind: 'cool', vessel: 'lye', to: 49_000, start: 0, meets: { kind: 'met' } }],
    setting: { by: 'maker', low: 1_210, middle: 1_500, high: 2_100, warmTo: 47_500 },
  },
});

/** Three minutes after the start, the probe of the oils lifted out. */
export const UNSURE = (at: number): ForecastLane => ({
  ...APART(at),
  lye: { outlook: { kind: 'none', why: 'not-yet', blocks: 3, needed: 8 }, marks: [] },
  oils: { outlook: { kind: 'none', why: 'out', blocks: 9, needed: 8 }, marks: [] },
  making: null,
  meeting: { kind: 'none', lye: 'not-yet', oils: 'out' },
});

/** Liquid stands ready, and a milk in it would scorch. */
export const BEFORE_LYE = (at: number): ForecastLane => ({
  ...UNSURE(at),
  making: {
    start: 21_000,
    likely: { value: 81_400, u: 2_100 },
    atMost: { value: 86_900, u: 1_800 },
    advice: { kind: 'frozen', percent: 60 },
    found: null,
  },
  meeting: null,
});
