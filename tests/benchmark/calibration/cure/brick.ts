/**
 * A drying bar of another make than the program's law: a brick in finite volumes. Water moves through it by a diffusivity that falls as it
 * dries, and leaves by its faces as long as it is damper there than the room, by Oswin's isotherm. Lengths mm, days, grams of water for
 * each gram of dry matter.
 */
export interface Brick {
  /** Half of each edge. */
  readonly half: readonly [number, number, number];
  /** mm²/day at a content of 0.3, and how fast it falls: ln for each unit of content. */
  readonly diffusivity: number;
  readonly falls: number;
  /** Oswin: content = level·(a/(1 − a))^power at water activity a. */
  readonly level: number;
  readonly power: number;
  /** Grams of water leaving a mm² in a day for each unit of activity above the room's, over the density of dry matter: mm/day. */
  readonly leaves: number;
  /** Share of the two largest faces that the air reaches. */
  readonly airy: number;
  /** Content at cutting. */
  readonly content: number;
}

const CELLS = [4, 5, 5] as const;
const LONGEST_STEP = 0.4;
const [NX, NY, NZ] = CELLS;
const COUNT = NX * NY * NZ;

/** Every two cells that touch, and every outer face, by axis. */
const PAIRS: { readonly from: number; readonly to: number; readonly axis: number }[] = [];
const FACES: { readonly cell: number; readonly axis: number }[] = [];
for (let x = 0; x < NX; x += 1)
  for (let y = 0; y < NY; y += 1)
    for (let z = 0; z < NZ; z += 1) {
      const cell = (x * NY + y) * NZ + z;
      for (const [axis, at, of, stride] of [
        [0, x, NX, NY * NZ],
        [1, y, NY, NZ],
        [2, z, NZ, 1],
      ] as const) {
        if (at < of - 1) PAIRS.push({ from: cell, to: cell + stride, axis });
        else FACES.push({ cell, axis });
      }
    }
const PAIR_FROM = Int32Array.from(PAIRS, ({ from }) => from);
const PAIR_TO = Int32Array.from(PAIRS, ({ to }) => to);

const activity = (content: number, { level, power }: Brick): number => {
  const y = (Math.max(content, 1e-6) / level) ** (1 / power);
  return y / (1 + y);
};

/**
 * Mean content on every whole day. An eighth of the brick, by its symmetry.
 * @param room relative humidity, and @param warmth a factor on the diffusivity, each by day.
 */
export const dryBrick = (brick: Brick, room: (day: number) => number, warmth: (day: number) => number, days: number): Float64Array => {
  const size = brick.half.map((half, axis) => half / (CELLS[axis] as number)) as [number, number, number];
  const inverse = size.map((one) => 1 / (one * one)) as [number, number, number];
  const conduct = Float64Array.from(PAIRS, ({ axis }) => 0.5 * (inverse[axis] as number));
  const out = Float64Array.from(FACES, ({ axis }) => ((axis === 0 ? brick.airy : 1) * brick.leaves) / (size[axis] as number));
  const content = new Float64Array(COUNT).fill(brick.content);
  const moves = new Float64Array(COUNT);
  const change = new Float64Array(COUNT);
  const means = new Float64Array(days + 1);
  means[0] = brick.content;
  for (let day = 1, time = 0; day <= days; day += 1) {
    const [humid, warm] = [room(day), warmth(day)];
    while (time < day - 1e-9) {
      let fastest = 0;
      for (let i = 0; i < COUNT; i += 1) {
        const d = warm * brick.diffusivity * Math.exp(brick.falls * ((content[i] as number) - 0.3));
        moves[i] = d;
        if (d > fastest) fastest = d;
      }
      const stable = 0.45 / (fastest * (inverse[0] + inverse[1] + inverse[2]) + (8 * brick.leaves) / size[0]);
      const step = Math.min(stable, LONGEST_STEP, day - time);
      change.fill(0);
      for (let k = 0; k < PAIR_FROM.length; k += 1) {
        const [i, j] = [PAIR_FROM[k] as number, PAIR_TO[k] as number];
        const flow =
          (conduct[k] as number) * ((moves[i] as number) + (moves[j] as number)) * ((content[j] as number) - (content[i] as number));
        change[i] = (change[i] as number) + flow;
        change[j] = (change[j] as number) - flow;
      }
      for (let k = 0; k < FACES.length; k += 1) {
        const i = (FACES[k] as { readonly cell: number }).cell;
        change[i] = (change[i] as number) - (out[k] as number) * (activity(content[i] as number, brick) - humid);
      }
      for (let i = 0; i < COUNT; i += 1) content[i] = (content[i] as number) + step * (change[i] as number);
      time += step;
    }
    means[day] = content.reduce((sum, one) => sum + one, 0) / COUNT;
  }
  return means;
};
