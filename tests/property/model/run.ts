/**
 * The model test at length: `npm run model -- --runs 10000 --seed 13`. Prints what came about and what did not hold, with the steps that
 * show it and how to play it again; ends with 1 then.
 *
 *     --runs N       stories to play (1000)
 *     --seed N       the same seed, the same stories (13)
 *     --plan ID      of this plan only; may repeat
 *     --path PATH    only the story a failure named
 *     --without-episodes   the rules forget which settled weights were used up: it must fail
 */
import { parseArgs } from 'node:util';
import { explore, toldOf, WITHOUT_EPISODES } from './explore';

const { values } = parseArgs({
  options: {
    runs: { type: 'string', default: '1000' },
    seed: { type: 'string', default: '13' },
    plan: { type: 'string', multiple: true },
    path: { type: 'string' },
    'without-episodes': { type: 'boolean', default: false },
  },
});
const seed = Number(values.seed);
const runs = Number(values.runs);
if (!Number.isSafeInteger(seed) || !Number.isSafeInteger(runs) || runs < 1) throw new Error('--runs and --seed take whole numbers');

const began = performance.now();
const { plan: plans, path } = values;
const { tally, found, ...played } = await explore({
  runs,
  seed,
  told: (line) => process.stderr.write(`${line}\r`),
  ...(plans === undefined ? {} : { plans }),
  ...(path === undefined ? {} : { path }),
  ...(values['without-episodes'] ? { rules: WITHOUT_EPISODES } : {}),
});
const rows = [...tally.kinds].toSorted(([a], [b]) => (a < b ? -1 : 1));
for (const [kind, times] of rows) console.log(`${kind.padEnd(32)} ${String(times).padStart(8)}`);
const seconds = Math.round((performance.now() - began) / 1_000);
console.log(`\n${played.runs} runs, ${tally.steps} steps in ${seconds} s, seed ${seed}`);
console.log(`${played.runs - (found === null ? 0 : 1)} passed, ${found === null ? 0 : 1} failed`);
if (found !== null) {
  console.error(`\n${toldOf(found, seed)}`);
  process.exitCode = 1;
}
