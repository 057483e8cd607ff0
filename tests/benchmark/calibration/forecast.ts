/**
 * The forecast of cooling vessels against vessels of another make than its laws: `npm run calibration:forecast -- [--vessels N] [--seed S]`.
 *
 * Two lumps (liquid and wall) that lose heat by free air, radiation, evaporation and into the bench, in a room that breathes; probes with
 * lag, noise, three kinds of last digit, spikes and gaps; fats that set; and one act on each: a bath (left in, or taken out again), a hob,
 * stirring, a lid, cold oil poured in, a probe lifted out. Every two minutes each interval is held against where the vessel truly goes if
 * nobody does anything more; every five the meeting likewise. Half as many more are left alone, to count what is marked for nothing.
 */
import { parseArgs } from 'node:util';
import { boundsOf } from './forecast/bounds';
import { noticedTable } from './forecast/noticed';
import { runAlone, runPair } from './forecast/run-pair';
import { AHEAD_MIN, newTally } from './forecast/tally';
import { quantile } from './interval';

const { values } = parseArgs({ options: { vessels: { type: 'string', default: '500' }, seed: { type: 'string', default: '1' } } });
const vessels = Number(values.vessels);
const seed = Number(values.seed);
if (!Number.isSafeInteger(vessels) || vessels < 20 || vessels % 2 !== 0) throw new Error('--vessels takes an even whole number from 20');
if (!Number.isSafeInteger(seed)) throw new Error('--seed takes a whole number');

const began = performance.now();
const tally = newTally();
for (let pair = 0; pair < vessels / 2; pair += 1) {
  runPair(seed, pair, tally);
  if (process.stderr.isTTY) process.stderr.write(`\r${2 * pair + 2} of ${vessels} vessels`);
}
for (let pair = 0; pair < vessels / 4; pair += 1) runAlone(seed + 1_000, pair, tally);
if (process.stderr.isTTY) process.stderr.write('\r\u001b[K');

console.log(`${vessels} vessels, seed ${seed}\n`);
console.log(`${''.padEnd(28)}${AHEAD_MIN.map((minutes) => `${minutes} min ahead`.padStart(34)).join('')}`);
for (const [group, byTime] of [...tally.held].toSorted(([a], [b]) => a.localeCompare(b))) {
  const cells = AHEAD_MIN.map((minutes) => {
    const held = byTime.get(minutes);
    if (held === undefined) return '';
    const all = held.inside + held.below + held.above;
    const rate = ((100 * held.inside) / all).toFixed(1);
    return `${rate} % of ${all}, ${held.below} below, ${quantile(held.widths, 0.5).toFixed(2)} K`;
  });
  console.log(`${group.padEnd(28)}${cells.map((cell) => cell.padStart(34)).join('')}`);
}

console.log(`\nno answer: ${[...tally.reasons].map(([why, times]) => `${why} ${times}`).join(', ')} of ${tally.asked}`);
const { meetings } = tally;
console.log(
  `meetings: met ${meetings.met.of}, span ${meetings.in.of}, not before ${meetings.notBefore.of}, never ${meetings.never.of}, no answer ${meetings.none}`,
);
console.log('\nnoticed within 20 min, after so long (median/nine in ten), by how far the act moves the vessel in 20 min:');
for (const line of noticedTable(tally.noticed)) console.log(line);
if (tally.tooEarly.length > 0)
  console.log(
    `too early: ${[...new Set(tally.tooEarly)].map((why) => `${why} ${tally.tooEarly.filter((one) => one === why).length}`).join(', ')}`,
  );

const bounds = boundsOf(tally);
console.log(
  `\n${bounds.map(({ name, found, wanted, holds }) => `${holds ? 'holds ' : 'BROKEN'}  ${name}: ${found} (${wanted})`).join('\n')}`,
);
console.log(`\n${((performance.now() - began) / 1000).toFixed(0)} s`);
if (bounds.some(({ holds }) => !holds)) process.exitCode = 1;
