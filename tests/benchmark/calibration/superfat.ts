/**
 * Superfat as poured against what is true of simulated batches: `npm run calibration:superfat -- [--batches N] [--seed S]`.
 *
 * The program plans each batch, is led through its weighing by what simulated scales show, and states an interval and a chance of being
 * lye-heavy. Lots, papers, scales and spills are drawn apart from it (`superfat/truth.ts`): fats anywhere in their standard's range in
 * ways that are none of them the triangle, papers with a laboratory's error, two scales with gains of their own, weights by hand, parts,
 * spills, batches half done. Fails unless the interval holds the truth 93 to 97 times in 100 and each chance comes true as often as said.
 */
import { parseArgs } from 'node:util';
import { coverage, isCalibrated, median, reliability, scoreOf } from './superfat/score';

const { values } = parseArgs({ options: { batches: { type: 'string', default: '5000' }, seed: { type: 'string', default: '1' } } });
const [batches, seed] = [Number(values.batches), Number(values.seed)];
if (!Number.isSafeInteger(batches) || batches < 100) throw new Error('--batches takes a whole number from 100');
if (!Number.isSafeInteger(seed)) throw new Error('--seed takes a whole number');

const WITHIN = [0.93, 0.97] as const;
const percent = (value: number, digits = 1): string => `${(100 * value).toFixed(digits)} %`.padStart(8);

const all = scoreOf(batches, seed);
const held = coverage(all);
const bins = reliability(all);
const beyond = all.filter(({ truth, worst }) => truth < worst.low || truth > worst.high).length;

console.log(`${batches} batches, seed ${seed}`);
const aside = (of: (one: (typeof all)[number]) => boolean): string => percent(all.filter(of).length / batches);
console.log(`the 95 % interval holds the truth in${percent(held)} (93 to 97 asked)`);
console.log(`truth below it${aside(({ truth, low }) => truth < low)}, above it${aside(({ truth, high }) => truth > high)}`);
console.log(
  `median width ${(100 * median(all.map(({ low, high }) => high - low))).toFixed(2)} points; truth outside the worst case: ${beyond}`,
);
console.log('\nchance of lye-heavy        batches      said     true  allowed apart');
for (const bin of bins) {
  const range = `${percent(bin.from)} to${percent(bin.to)}`.padEnd(24);
  const figures = `${percent(bin.said)} ${percent(bin.heavy)} ${percent(bin.allowed)}`;
  console.log(`${range} ${String(bin.count).padStart(8)}  ${figures}  ${isCalibrated(bin) ? '' : 'NOT MET'}`);
}
const met = held >= WITHIN[0] && held <= WITHIN[1] && bins.every(isCalibrated);
console.log(met ? '\nmet' : '\nNOT MET');
if (!met) process.exitCode = 1;
