import { describe, expect, it } from 'vitest';
import { figuresOf } from '#lib/soap/poured/index';
import type { Belief, MassError } from '#lib/soap/poured/index';
import { certified, gramsOf, off, potOf, ranged, soda, TABLE } from '#tests/support/pot';

/**
 * GUM Supplement 1: 10⁵ draws through the model itself, nothing of it linear, against the propagated interval. Its own draws and its own
 * superfat: NaOH = KOH × 0.71289.
 */
const DRAWS = 100_000;

/** Uniform from a fixed start (Lehmer, 48271, 2³¹ − 1). */
const uniformFrom = (start: number): (() => number) => {
  let state = start;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
};

const SODA = 5;

/** Superfat of one draw: believed values at `values`, masses at `grams`. */
const superfat = (grams: readonly number[], values: readonly number[]): number => {
  const demand = TABLE.reduce((sum, _, at) => sum + ((grams[at] ?? 0) * (values[at] ?? 0) * 0.71289) / 1000, 0);
  return 1 - ((grams[SODA] ?? 0) * (values[TABLE.length] ?? 0)) / demand;
};

interface Drawn {
  readonly low: number;
  readonly high: number;
  readonly u: number;
  readonly mean: number;
  readonly lyeHeavy: number;
}

const draw = (beliefs: readonly Belief[], grams: readonly number[], errors: readonly MassError[]): Drawn => {
  const uniform = uniformFrom(20_261);
  const normal = (): number => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  const valueOf = (one: Belief): number => {
    if (one.of === 'purity')
      return one.belief.kind === 'label'
        ? one.value + one.belief.u * Math.sqrt(3) * (2 * uniform() - 1)
        : one.value + one.belief.u * normal();
    if (one.belief.kind !== 'range') return one.value + one.belief.u * normal();
    const { low, high } = one.belief;
    const at = (one.value - low) / (high - low);
    const r = uniform();
    return r < at ? low + Math.sqrt(r * (high - low) * (one.value - low)) : high - Math.sqrt((1 - r) * (high - low) * (high - one.value));
  };
  const all = new Float64Array(DRAWS);
  for (let i = 0; i < DRAWS; i += 1) {
    const values = beliefs.map(valueOf);
    const masses = [...grams];
    for (const { effect } of errors) {
      const z = normal();
      for (const { line, grams: by } of effect) masses[line] = (masses[line] ?? 0) + by * z;
    }
    all[i] = superfat(masses, values);
  }
  all.sort();
  const mean = all.reduce((sum, one) => sum + one, 0) / DRAWS;
  const u = Math.sqrt(all.reduce((sum, one) => sum + (one - mean) ** 2, 0) / DRAWS);
  return { low: all[0.025 * DRAWS] ?? 0, high: all[0.975 * DRAWS] ?? 0, u, mean, lyeHeavy: all.findIndex((one) => one >= 0) / DRAWS };
};

const readings: readonly MassError[] = [0, 1, 2, 3, 4].map((at) =>
  off('reading', 'big', ...(at > 0 ? [[at - 1, 0.3] as const] : []), ...(at < 4 ? [[at, -0.3] as const] : [])),
);
const gains = (grams: readonly number[]): readonly MassError[] => [
  off('gain', 'big', ...grams.slice(0, SODA).map((mass, at) => [at, 0.001 * mass] as const)),
  off('gain', 'small', [SODA, 0.001 * (grams[SODA] ?? 0)]),
];
const TABLED = [...TABLE.map(ranged), soda(0.01 / Math.sqrt(3), 'label')];

const CASES: readonly (readonly [string, number, readonly Belief[], readonly MassError[]])[] = [
  ['ranges alone', 0.05, [...TABLE.map(ranged), soda(0)], []],
  ['ranges, a label, weighed one upon another on one of two scales', 0.05, TABLED, [...readings, ...gains(gramsOf(0.05))]],
  ['little superfat, so that a part is lye-heavy', 0.008, TABLED, readings],
  [
    'certificates and two scales',
    0.03,
    [...TABLE.map(([name, , , sv]) => certified(name, sv, 1)), soda(0.002)],
    [...readings, ...gains(gramsOf(0.03))],
  ],
  [
    'one fat that leans to the end of its range is most of it',
    0.02,
    [ranged(['coconut', 300, 248, 249, 265] as never), ...TABLE.slice(1).map(([name, , , sv]) => certified(name, sv, 0.2)), soda(0.001)],
    [],
  ],
];

describe('the propagated interval against 100,000 draws', () => {
  it.each(CASES)('%s', (_name, wished, beliefs, errors) => {
    const grams = gramsOf(wished);
    const ours = figuresOf(potOf(beliefs), { grams, errors }).superfat;
    if (ours === null) throw new Error('no superfat');
    const drawn = draw(beliefs, grams, errors);
    // Stated tolerance: 2 % of the half-width for each end, which is four times what 10⁵ draws scatter by; 1.5 % of u; 0.005 of a chance.
    const half = (drawn.high - drawn.low) / 2;
    expect(Math.abs(ours.low - drawn.low) / half).toBeLessThan(0.02);
    expect(Math.abs(ours.high - drawn.high) / half).toBeLessThan(0.02);
    expect(Math.abs(ours.u / drawn.u - 1)).toBeLessThan(0.015);
    expect(Math.abs(ours.value - drawn.mean) / half).toBeLessThan(0.02);
    expect(Math.abs(ours.lyeHeavy - drawn.lyeHeavy)).toBeLessThan(0.005);
  });
});
