import { describe, expect, it } from 'vitest';
import type { ForecastLane, MeetingLane, VesselLane } from '#lib/protocol/forecast';
import { expectedRows, fitting, headline, inPassing, placeText } from '../../../app/bench/_parts/expected';

const DISPLAY = { mass: 'g', temperature: 'C', locale: 'en-GB' } as const;
const SHOW = { display: DISPLAY, clock: (seconds: number) => `${seconds} s` };
const FORECAST: VesselLane = {
  outlook: { kind: 'forecast', since: 0, until: 3_600, setting: false, ahead: [[0, 1, 2, 3]] },
  marks: [],
};
const none = (why: Extract<VesselLane['outlook'], { kind: 'none' }>['why']): VesselLane => ({
  outlook: { kind: 'none', why, blocks: 3, needed: 8 },
  marks: [],
});
const lane = (change: Partial<ForecastLane> = {}): ForecastLane => ({
  boot: 'b',
  at: 0,
  batch: null,
  lye: FORECAST,
  oils: FORECAST,
  making: null,
  swapped: false,
  meeting: null,
  ...change,
});
type Meets = Extract<MeetingLane, { kind: 'meeting' }>;
const meets = (change: Partial<Meets> = {}): Meets => ({
  kind: 'meeting',
  when: { kind: 'in', low: 851, middle: 980, high: 1_139 },
  joinable: { kind: 'in', low: 851, middle: 980, high: 1_139 },
  against: [],
  acts: [],
  setting: null,
  ...change,
});
const rows = (change: Partial<ForecastLane>): readonly string[] =>
  expectedRows(lane(change), SHOW).map(({ what, so }) => `${what} | ${so}`);

describe('when they meet, in words', () => {
  it('gives a span that never says more than is known', () => {
    expect(headline(meets())).toBe('Meet in 14–19 min');
    expect(headline(meets({ when: { kind: 'in', low: 20, middle: 60, high: 121 } }))).toBe('Meet within 3 min');
    expect(headline(meets({ when: { kind: 'not-before', after: 1_530 } }))).toBe('Not before 25 min');
    expect(headline(meets({ when: { kind: 'met' } }))).toBe('They meet now');
  });

  it('says never only with what would change it, where there is such an act', () => {
    const acts = [{ kind: 'warm', vessel: 'oils', to: 46_000, start: 0, meets: { kind: 'in', low: 301, middle: 400, high: 540 } }] as const;
    expect(headline(meets({ when: { kind: 'never' } }))).toBe('Never by themselves');
    expect(headline(meets({ when: { kind: 'never' }, acts }))).toBe('Never unless you act');
    expect(rows({ meeting: meets({ when: { kind: 'never' }, acts }) })).toEqual([
      'Warm the oils to 46.0 °C | now: then they meet in 5–9 min',
    ]);
  });

  it('an act that brings them together at once is told as that', () => {
    const acts = [{ kind: 'cool', vessel: 'lye', to: 46_000, start: 0, meets: { kind: 'in', low: 0, middle: 0, high: 0 } }] as const;
    expect(rows({ meeting: meets({ acts }) })).toEqual(['Cool the lye to 46.0 °C | now: then they meet at once']);
  });

  it('says nothing in passing while nothing is known', () => {
    expect(inPassing(null)).toBeNull();
    expect(inPassing({ kind: 'none', lye: 'not-yet', oils: null })).toBeNull();
    expect(inPassing(meets())).toBe('meet in 14–19 min');
    expect(headline({ kind: 'none', lye: 'not-yet', oils: null })).toBe('Not enough yet');
    expect(headline({ kind: 'none', lye: 'rising', oils: 'out' })).toBe('A probe is suspect');
  });
});

const row = (letters: number) => ({ key: 'a', what: 'Lye', so: 'x'.repeat(letters), urgent: false });

describe('what there is room for', () => {
  it('is fewer rows where they are long, and never none', () => {
    expect(fitting([10, 10, 10, 10, 10].map(row), 'wide')).toHaveLength(4);
    expect(fitting([70, 70, 70, 70].map(row), 'wide')).toHaveLength(2);
    expect(fitting([10, 10, 10].map(row), 'small')).toHaveLength(2);
    expect(fitting([10, 10, 10].map(row), 'phone')).toHaveLength(2);
    expect(fitting([400, 10].map(row), 'phone')).toHaveLength(1);
    expect(fitting([], 'phone')).toEqual([]);
  });
});

describe('what is said of each vessel', () => {
  it('says why nothing is expected of one, and nothing of one that is understood', () => {
    expect(rows({ lye: none('not-yet') })).toEqual(['Lye | too early to say: 60 of 160 s heard']);
    expect(rows({ oils: none('out') })[0]).toMatch(/^Oils \| suspect/);
    expect(rows({})).toEqual([]);
  });

  it('puts oils that set before everything else, and says when nothing holds them', () => {
    const setting = { by: 'maker', low: 600, middle: 700, high: 900, warmTo: 47_500 } as const;
    const acts = [{ kind: 'cool', vessel: 'lye', to: 49_000, start: 301, meets: { kind: 'met' } }] as const;
    expect(rows({ meeting: meets({ setting, acts }) })).toEqual([
      'Oils start to set in 10–15 min | warm the pot to 47.5 °C now',
      'Cool the lye to 49.0 °C | in 5 min: then they meet at once',
    ]);
    expect(rows({ meeting: meets({ setting: { ...setting, by: 'melting' } }) })[0]).toMatch(/^A fat may begin to set/);
    const [first] = rows({ meeting: meets({ setting: { ...setting, high: null, warmTo: null } }) });
    expect(first).toMatch(/^Oils may start to set from 10 min on \| no temperature/);
  });

  it('puts a suspicion of swapped probes first', () => {
    expect(rows({ swapped: true, lye: none('not-yet') })[0]).toMatch(/^Are the probes swapped/);
  });

  it('tells a drop with when it began and when it was noticed, only the newest of each vessel', () => {
    const marks = [
      { turn: 'leapt', since: 10, noticed: 30 },
      { turn: 'faster', since: 100, noticed: 180 },
    ] as const;
    expect(rows({ lye: { ...FORECAST, marks } })).toEqual(['Lye cooling faster | noticed 180 s, began 100 s']);
  });

  it('holds what the lye reached against what was expected', () => {
    const making = { start: 21_000, likely: { value: 81_400, u: 2_100 }, atMost: { value: 86_900, u: 1_800 }, advice: null } as const;
    expect(rows({ making: { ...making, found: null } })).toEqual(['Lye expected to reach | 81.4 °C ± 4.2 °C; at most 90.5 °C']);
    const found = { highest: 61_000, verdict: 'below', reached: 66 } as const;
    expect(rows({ making: { ...making, found } })[0]).toMatch(/^Lye reached 61.0 °C \| expected 81.4 °C ± 4.2 °C: cooler/);
    expect(rows({ making: { ...making, found: null, advice: { kind: 'frozen', percent: 40 } } })[1]).toMatch(
      /start with 40 % of it frozen$/,
    );
  });

  it('says where one stands against the window, and nothing inside it', () => {
    const window = { low: 36_000, high: 50_000 };
    expect(placeText('lye', 54_100, window, DISPLAY)).toBe('Lye 4.1 °C above the window');
    expect(placeText('oils', 35_000, window, DISPLAY)).toBe('Oils 1.0 °C below the window');
    expect(placeText('oils', 36_000, window, DISPLAY)).toBe('');
  });
});
