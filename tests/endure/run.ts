/**
 * What the bench endures: `npm run endure -- --kills 200 --unplugs 200 --runs 10000`. The production server in a process of its own, its
 * record on the disk, scales on kernel ttys, one screen at its socket; and the model's random stories. Prints the figures of each and
 * `N passed, N failed` over all; ends with 1 when anything failed.
 */
import { parseArgs } from 'node:util';
import { explore, toldOf } from '../property/model/explore';
import { tableOf } from './endured';
import type { Endured } from './endured';
import { kills } from './kills';
import { unplugs } from './unplugs';

const { values } = parseArgs({
  options: {
    kills: { type: 'string', default: '200' },
    unplugs: { type: 'string', default: '200' },
    runs: { type: 'string', default: '10000' },
    seed: { type: 'string', default: '5' },
  },
});
const number = (name: keyof typeof values): number => {
  const value = Number(values[name]);
  if (!Number.isSafeInteger(value) || value < 0) throw new Error(`--${name} takes a whole number`);
  return value;
};

const stories = async (runs: number, seed: number, told: (line: string) => void): Promise<Endured> => {
  const { found, runs: played, tally } = await explore({ runs, seed, told });
  const failed = found === null ? 0 : 1;
  const often = (kind: string): number => tally.kinds.get(kind) ?? 0;
  return {
    name: 'model',
    // A failing story ends the search.
    passed: played - failed,
    failed,
    faults: found === null ? [] : [toldOf(found, seed)],
    figures: { steps: tally.steps, crashes: often('crash'), 'weights accepted by themselves': often('accepted by-itself') },
  };
};

const KINDS = { kills, unplugs, runs: stories } as const;
const all: Endured[] = [];
for (const kind of ['kills', 'unplugs', 'runs'] as const) {
  const times = number(kind);
  if (times === 0) continue;
  const endured = await KINDS[kind](times, number('seed'), console.log);
  console.log(`\n${tableOf(endured)}\n`);
  all.push(endured);
}
const sum = (of: (one: Endured) => number): number => all.reduce((total, one) => total + of(one), 0);
const failed = sum((one) => one.failed);
console.log(`${sum((one) => one.passed)} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
