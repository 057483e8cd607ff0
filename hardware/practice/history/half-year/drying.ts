import type { Random } from '../../world/random';

/**
 * How much of its weight a bar of the invented workshop has lost: water leaving a slab through its faces (a sum over half-lives, quick
 * ones near the face and slow ones from the middle), in a room that is drier in winter. A story for practice, no model of anything.
 */
export const dryer = (random: Random, water: number) => {
  const [most, pace] = [water * random.between(0.46, 0.55), random.between(0.85, 1.2)];
  const PARTS = [
    [0.3, 3],
    [0.3, 11],
    [0.25, 32],
    [0.15, 90],
  ] as const;
  return (days: number): number =>
    most * PARTS.reduce((sum, [share, half]) => sum + share * (1 - 0.5 ** ((pace * Math.max(0, days)) / half)), 0);
};
