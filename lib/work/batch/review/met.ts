import type { TemperatureCourse } from '../course';
import { crossings } from '../joining';
import type { JoiningPlan } from '../plan';

/**
 * When lye and oils truly came to be in the window and near enough to each other: seconds from the moment at which that was foretold, by
 * means of whole steps; 0 where they were so already. `null`: they did not until they were joined, or nothing was foretold.
 */
export const metAfter = ({ everyS, lye, oils, foretold }: TemperatureCourse, limits: JoiningPlan): number | null => {
  if (foretold === undefined) return null;
  const first = Math.floor(foretold.at / everyS);
  const found = lye.findIndex(
    (celsius, i) => i >= first && crossings(limits, { lye: celsius, oils: oils[i] ?? null, milk: null }, null).length === 0,
  );
  return found === -1 ? null : Math.max(0, (found + 0.5) * everyS - foretold.at);
};
