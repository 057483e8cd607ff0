/** A point of a published table. */
export type Point = readonly [x: number, y: number];

/**
 * A smooth curve through a published table that never swings past its points: piecewise cubic with the slopes of Fritsch and
 * Carlson (SIAM J. Numer. Anal. 17 (1980) 238–246, from memory). Points ascend in x.
 * @returns y at x. @throws RangeError outside the table: nothing is extrapolated.
 */
export const curve = (points: readonly Point[]): ((x: number) => number) => {
  const slopes = slopesOf(points);
  const first = points[0]?.[0] ?? Number.NaN;
  const last = points.at(-1)?.[0] ?? Number.NaN;
  return (x) => {
    if (!(x >= first && x <= last)) throw new RangeError(`the table runs from ${first} to ${last}`);
    let i = 1;
    while (i < points.length - 1 && at(points, i)[0] < x) i += 1;
    const [x0, y0] = at(points, i - 1);
    const [x1, y1] = at(points, i);
    const h = x1 - x0;
    const s = (x - x0) / h;
    const rest = 1 - s;
    return (
      y0 * (1 + 2 * s) * rest * rest +
      y1 * s * s * (3 - 2 * s) +
      h * s * rest * (rest * (slopes[i - 1] as number) - s * (slopes[i] as number))
    );
  };
};

const at = (points: readonly Point[], i: number): Point => points[i] as Point;

const slopesOf = (points: readonly Point[]): readonly number[] => {
  const n = points.length;
  if (n < 3) throw new RangeError('a curve needs at least three points');
  const width = (i: number): number => at(points, i + 1)[0] - at(points, i)[0];
  const secant = (i: number): number => (at(points, i + 1)[1] - at(points, i)[1]) / width(i);
  return points.map((_, i) => {
    if (i === 0) return endSlope(width(0), width(1), secant(0), secant(1));
    if (i === n - 1) return endSlope(width(n - 2), width(n - 3), secant(n - 2), secant(n - 3));
    const [before, after] = [secant(i - 1), secant(i)];
    if (before * after <= 0) return 0;
    const [a, b] = [2 * width(i) + width(i - 1), width(i) + 2 * width(i - 1)];
    return (a + b) / (a / before + b / after);
  });
};

/** Three-point slope at an end, kept from turning the curve back. */
const endSlope = (h0: number, h1: number, d0: number, d1: number): number => {
  const slope = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
  if (slope * d0 <= 0) return 0;
  return d0 * d1 <= 0 && Math.abs(slope) > 3 * Math.abs(d0) ? 3 * d0 : slope;
};
