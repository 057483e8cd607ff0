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

const CELLS = [5, 7, 8] as const;
const LONGEST_STEP = 0.2;

const activity = (content: number, { level, power }: Brick): number => {
  const y = (Math.max(content, 1e-6) / level) ** (1 / power);
  return y / (1 + y);
};

/**
 * Mean content on every whole day. An eighth of the brick, by its symmetry.
 * @param room relative humidity, and @param warmth a factor on the diffusivity, each by day.
 */
export const dryBrick = (brick: Brick, room: (day: number) => number, warmth: (day: number) => number, days: number): Float64Array => {
  const [nx, ny, nz] = CELLS;
  const size = brick.half.map((half, axis) => half / (CELLS[axis] as number)) as [number, number, number];
  const count = nx * ny * nz;
  const content = new Float64Array(count).fill(brick.content);
  const moves = new Float64Array(count);
  const change = new Float64Array(count);
  const strides = [ny * nz, nz, 1] as const;
  const inverse = size.map((one) => 1 / (one * one));
  const means = new Float64Array(days + 1);
  means[0] = brick.content;
  let time = 0;
  for (let day = 1; day <= days; day += 1) {
    const [humid, warm] = [room(day), warmth(day)];
    while (time < day) {
      let fastest = 0;
      for (let i = 0; i < count; i += 1) {
        const d = warm * brick.diffusivity * Math.exp(brick.falls * ((content[i] as number) - 0.3));
        moves[i] = d;
        if (d > fastest) fastest = d;
      }
      const stable = 0.4 / (fastest * (inverse[0]! + inverse[1]! + inverse[2]!) + (8 * brick.leaves) / size[0]);
      const step = Math.min(stable, LONGEST_STEP, day - time);
      change.fill(0);
      for (let x = 0, i = 0; x < nx; x += 1)
        for (let y = 0; y < ny; y += 1)
          for (let z = 0; z < nz; z += 1, i += 1) {
            const at = [x, y, z];
            for (let axis = 0; axis < 3; axis += 1) {
              if (at[axis]! < CELLS[axis]! - 1) {
                const j = i + strides[axis]!;
                const flow = 0.5 * (moves[i]! + moves[j]!) * (content[j]! - content[i]!) * inverse[axis]!;
                change[i] = change[i]! + flow;
                change[j] = change[j]! - flow;
              } else {
                const out = (axis === 0 ? brick.airy : 1) * brick.leaves * (activity(content[i]!, brick) - humid);
                change[i] = change[i]! - out / size[axis]!;
              }
            }
          }
      for (let i = 0; i < count; i += 1) content[i] = content[i]! + step * change[i]!;
      time += step;
    }
    time = day;
    means[day] = content.reduce((sum, one) => sum + one, 0) / count;
  }
  return means;
};
