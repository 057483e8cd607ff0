/**
 * How a quantity with mean 0 and standard deviation 1 is spread. `flat`: between two bounds, nothing known inside. `triangle`: its three
 * corners in standard deviations from the mean.
 */
export type Shape =
  | { readonly kind: 'normal' }
  | { readonly kind: 'flat' }
  | { readonly kind: 'triangle'; readonly low: number; readonly mode: number; readonly high: number };

/** A mean, a standard deviation and how it is spread. */
export interface Doubt {
  readonly mean: number;
  readonly u: number;
  readonly shape: Shape;
  /** How far the worst case goes, in standard deviations. */
  readonly ends: readonly [low: number, high: number];
}

/** What is known to a standard uncertainty: its worst case goes to two of them. */
export const normal = (mean: number, u: number): Doubt => ({ mean, u, shape: { kind: 'normal' }, ends: [-2, 2] });

/** Anywhere within `half` of the middle. */
export const flat = (mean: number, half: number): Doubt => ({
  mean,
  u: half / Math.sqrt(3),
  shape: { kind: 'flat' },
  ends: [-Math.sqrt(3), Math.sqrt(3)],
});

/** Moments of a triangle from a to b with its mode at c (GUM 4.3.9 gives the symmetric one). @throws RangeError for a mode outside */
export const triangle = (a: number, c: number, b: number): Doubt => {
  if (!(a <= c && c <= b)) throw new RangeError('a working value lies inside its range');
  const mean = (a + b + c) / 3;
  const u = Math.sqrt(Math.max(0, (a * a + b * b + c * c - a * b - a * c - b * c) / 18));
  if (u === 0) return normal(mean, 0);
  const [low, mode, high] = [(a - mean) / u, (c - mean) / u, (b - mean) / u];
  return { mean, u, shape: { kind: 'triangle', low, mode, high }, ends: [low, high] };
};

/** One independent part of a sum: a shape, times a signed weight. */
export interface Part {
  readonly weight: number;
  readonly shape: Shape;
}

/** A corner this near another, of the base, is moved off it: the formula divides by the distance. */
const CORNER = 1e-5;
const SMALL = 0.05;

/** Characteristic function at t; [real, imaginary]. */
const characteristic = (shape: Shape, t: number): readonly [number, number] => {
  switch (shape.kind) {
    case 'normal':
      return [Math.exp(-0.5 * t * t), 0];
    case 'flat': {
      const x = Math.sqrt(3) * t;
      return [Math.abs(x) < 1e-4 ? 1 - (x * x) / 6 : Math.sin(x) / x, 0];
    }
    case 'triangle':
      break;
  }
  const { low: a, high: b } = shape;
  const base = b - a;
  const c = Math.min(b - CORNER * base, Math.max(a + CORNER * base, shape.mode));
  // Of unit variance; the fourth moment of a triangle is 2.4 whatever its lean.
  if (Math.abs(t) * base < SMALL) return [1 - (t * t) / 2 + (2.4 * t ** 4) / 24, (-(t ** 3) * thirdOf(a, c, b)) / 6];
  const scale = -2 / (base * (c - a) * (b - c) * t * t);
  const [p, q, r] = [b - c, base, c - a];
  return [
    scale * (p * Math.cos(a * t) - q * Math.cos(c * t) + r * Math.cos(b * t)),
    scale * (p * Math.sin(a * t) - q * Math.sin(c * t) + r * Math.sin(b * t)),
  ];
};

const thirdOf = (a: number, c: number, b: number): number => ((a + b - 2 * c) * (2 * a - b - c) * (a - 2 * b + c)) / 270;

const STEP = 0.3;
const MOST_STEPS = 240;
/** Beyond this many standard deviations a chance is none. The sum repeats itself after 2π/STEP = 21 of them. */
const FAR = 10;
const FAINT = 1e-10;

/**
 * Chance that `mean` plus a sum of independent parts lies below zero, by Gil-Pelaez' inversion of the characteristic function, summed at
 * midpoints (Davies 1973). Exact to about 1e-6 where something round is in the sum, 1e-4 for a lone triangle, 0.003 where that one ends in
 * a cliff.
 */
export const chanceBelowZero = (mean: number, parts: readonly Part[]): number => {
  const scale = Math.sqrt(parts.reduce((sum, { weight }) => sum + weight * weight, 0));
  if (scale === 0) return mean < 0 ? 1 : 0;
  const centre = mean / scale;
  if (Math.abs(centre) > FAR) return centre < 0 ? 1 : 0;
  const normals = parts.reduce((sum, { weight, shape }) => (shape.kind === 'normal' ? sum + (weight / scale) ** 2 : sum), 0);
  const others = parts.flatMap(({ weight, shape }) => (shape.kind === 'normal' || weight === 0 ? [] : [{ weight: weight / scale, shape }]));
  let sum = 0;
  for (let k = 0; k < MOST_STEPS; k += 1) {
    const t = (k + 0.5) * STEP;
    let [re, im] = [Math.exp(-0.5 * normals * t * t), 0];
    for (const { weight, shape } of others) {
      const [cos, sin] = characteristic(shape, weight * t);
      [re, im] = [re * cos - im * sin, re * sin + im * cos];
    }
    if (re * re + im * im < FAINT * FAINT) break;
    sum += (re * Math.sin(centre * t) + im * Math.cos(centre * t)) / (k + 0.5);
  }
  return Math.min(1, Math.max(0, 0.5 - sum / Math.PI));
};
