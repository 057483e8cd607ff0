/** Small symmetric systems, row by row in flat arrays: what a fit of a few weighings needs of linear algebra. */

/** A hair on the diagonal, as a share of it: kernels with close knots are singular to the last digit. */
const HAIR = 1e-10;

/** Lower triangle L with L·Lᵀ = a; `a` is n × n. @throws RangeError for one that is not positive */
export const cholesky = (a: ArrayLike<number>, n: number): Float64Array => {
  const lower = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      let sum = a[i * n + j] as number;
      for (let k = 0; k < j; k += 1) sum -= (lower[i * n + k] as number) * (lower[j * n + k] as number);
      if (i === j) {
        const diagonal = sum + HAIR * (a[i * n + i] as number);
        if (!(diagonal > 0)) throw new RangeError('a covariance must be positive');
        lower[i * n + i] = Math.sqrt(diagonal);
      } else lower[i * n + j] = sum / (lower[j * n + j] as number);
    }
  }
  return lower;
};

/** x with L·x = b. */
export const forward = (lower: Float64Array, n: number, b: ArrayLike<number>): Float64Array => {
  const x = new Float64Array(n);
  for (let i = 0; i < n; i += 1) {
    let sum = b[i] as number;
    for (let k = 0; k < i; k += 1) sum -= (lower[i * n + k] as number) * (x[k] as number);
    x[i] = sum / (lower[i * n + i] as number);
  }
  return x;
};

/** x with Lᵀ·x = b. */
export const backward = (lower: Float64Array, n: number, b: ArrayLike<number>): Float64Array => {
  const x = new Float64Array(n);
  for (let i = n - 1; i >= 0; i -= 1) {
    let sum = b[i] as number;
    for (let k = i + 1; k < n; k += 1) sum -= (lower[k * n + i] as number) * (x[k] as number);
    x[i] = sum / (lower[i * n + i] as number);
  }
  return x;
};

export const dot = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += (a[i] as number) * (b[i] as number);
  return sum;
};

export type Three = readonly [number, number, number];
/** Row by row. */
export type ThreeByThree = readonly [Three, Three, Three];

export const add3 = (a: ThreeByThree, b: ThreeByThree): ThreeByThree => each3((i, j) => at3(a, i, j) + at3(b, i, j));
export const less3 = (a: ThreeByThree, b: ThreeByThree): ThreeByThree => each3((i, j) => at3(a, i, j) - at3(b, i, j));
export const times3 = (a: ThreeByThree, b: ThreeByThree): ThreeByThree =>
  each3((i, j) => at3(a, i, 0) * at3(b, 0, j) + at3(a, i, 1) * at3(b, 1, j) + at3(a, i, 2) * at3(b, 2, j));
export const turned3 = (a: ThreeByThree): ThreeByThree => each3((i, j) => at3(a, j, i));
export const onto3 = (a: ThreeByThree, x: Three): Three => [dot(a[0], x), dot(a[1], x), dot(a[2], x)];

/** Inverse of a positive one. */
export const inverse3 = (a: ThreeByThree): ThreeByThree => {
  const lower = cholesky(a.flat(), 3);
  const column = (k: number): Float64Array =>
    backward(
      lower,
      3,
      forward(
        lower,
        3,
        [0, 1, 2].map((i) => (i === k ? 1 : 0)),
      ),
    );
  const columns = [column(0), column(1), column(2)] as const;
  return each3((i, j) => (columns[j] as Float64Array)[i] as number);
};

const at3 = (a: ThreeByThree, i: number, j: number): number => (a[i] as Three)[j] as number;
const each3 = (of: (i: number, j: number) => number): ThreeByThree => {
  const row = (i: number): Three => [of(i, 0), of(i, 1), of(i, 2)];
  return [row(0), row(1), row(2)];
};
