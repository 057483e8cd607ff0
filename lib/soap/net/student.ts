/**
 * Student's t and the normal distribution by their quantiles. Regularised incomplete beta by Lentz's continued fraction (Abramowitz and
 * Stegun 26.5.8), inverted by halving: exact to about 1e-10, and a check of a lot asks a few times only.
 */

/** ln Γ(x) for x > 0, Lanczos (g = 7, n = 9; coefficients from memory), good to 1e-14. */
const lnGamma = (x: number): number => {
  const [first, ...rest] = LANCZOS;
  const sum = rest.reduce((total, coefficient, k) => total + coefficient / (x + k), first);
  const t = x + 6.5;
  return 0.5 * Math.log(2 * Math.PI) + (x - 0.5) * Math.log(t) - t + Math.log(sum);
};
const LANCZOS: readonly [number, ...number[]] = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059, 12.507343278686905,
  -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];

const TINY = 1e-300;
const CLOSE = 1e-14;
const ROUNDS = 400;

const fractionOf = (x: number, a: number, b: number): number => {
  let c = 1;
  let d = 1 / Math.max(TINY, 1 - ((a + b) * x) / (a + 1));
  let value = d;
  for (let m = 1; m <= ROUNDS; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    value *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    const step = d * c;
    value *= step;
    if (Math.abs(step - 1) < CLOSE) break;
  }
  return value;
};

const away = (value: number): number => (Math.abs(value) < TINY ? TINY : value);

/** Regularised incomplete beta I_x(a, b). */
const incompleteBeta = (x: number, a: number, b: number): number => {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = Math.exp(lnGamma(a + b) - lnGamma(a) - lnGamma(b) + a * Math.log(x) + b * Math.log(1 - x));
  return x < (a + 1) / (a + b + 2) ? (front * fractionOf(x, a, b)) / a : 1 - (front * fractionOf(1 - x, b, a)) / b;
};

const belowT = (t: number, freedom: number): number => {
  const tail = 0.5 * incompleteBeta(freedom / (freedom + t * t), freedom / 2, 0.5);
  return t < 0 ? tail : 1 - tail;
};

const HALVINGS = 200;

/** Where `isBelow` ends, between two that hold it between them. */
const halved = (isBelow: (x: number) => boolean, from: number, to: number): number => {
  let [low, high] = [from, to];
  for (let round = 0; round < HALVINGS && high - low > CLOSE; round += 1) {
    const middle = (low + high) / 2;
    if (isBelow(middle)) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};

/** t with a chance of `share` below it. @param freedom degrees of freedom, above zero. @throws RangeError */
export const studentQuantile = (share: number, freedom: number): number => {
  if (!(share > 0 && share < 1)) throw new RangeError('a chance lies between 0 and 1');
  if (!(freedom > 0)) throw new RangeError('degrees of freedom are above zero');
  if (share === 0.5) return 0;
  if (share < 0.5) return -studentQuantile(1 - share, freedom);
  let high = 1;
  while (belowT(high, freedom) < share) high *= 2;
  return halved((t) => belowT(t, freedom) < share, 0, high);
};

/** Chance below z, by the series of 26.2.11: z·φ(z)·Σ z²ᵏ/(1·3·5…(2k + 1)). */
const belowZ = (z: number): number => {
  let [term, sum] = [z, z];
  for (let k = 1; k < ROUNDS && Math.abs(term) > CLOSE * Math.abs(sum); k += 1) {
    term *= (z * z) / (2 * k + 1);
    sum += term;
  }
  return 0.5 + (sum * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
};

/** z with a chance of `share` below it. @throws RangeError */
export const normalQuantile = (share: number): number => {
  if (!(share > 0 && share < 1)) throw new RangeError('a chance lies between 0 and 1');
  return halved((z) => belowZ(z) < share, -8, 8);
};
