/**
 * The conductor against simulated scales, hands, materials and mishaps that neither its rules nor the practice bench were made from:
 * `npm run calibration:handsfree -- [--lines N] [--seed S] [--families unseen|fitted] [--deaf] [--processes N]`.
 *
 * Half of the lines go undisturbed, half meet one of 15 mishaps; a tenth of either comes in pieces, told apart because there a step upwards
 * is how it is poured. Nobody presses anything: a line ends accepted by itself, asked about, over, or never.
 *
 *     wrong   accepted without a question, and the weight in the record is off by more than the tolerance (and a division)
 *     left    wrong by what was in the vessel at acceptance or at the lift, and not asked about after the lift either
 *     off     accepted, and the true weight lies more than a division outside the tolerance about the target
 *     asked   the bench asked instead of accepting; over, never likewise; needless ?: a right weight asked about at the lift
 *     time    from the last material landed to the acceptance
 *
 * Half of the hands heed the cue, four of five of those its tone as well; with `--deaf` nobody hears it.
 * The constants of the rules were fitted on `fitted` families of scales; the table is of others.
 */
import { availableParallelism } from 'node:os';
import { parseArgs } from 'node:util';
import { runAll } from './crew';
import { DISTURBANCES } from './disturb';
import { marksOf } from './marks';
import { partsOf, type Part } from './parts';
import { endsOf, marksTable, reasonsOf, tableOf } from './table';
import { sum, type Tally } from './tally';

const { values } = parseArgs({
  options: {
    lines: { type: 'string', default: '20000' },
    seed: { type: 'string', default: '1' },
    families: { type: 'string', default: 'unseen' },
    deaf: { type: 'boolean', default: false },
    processes: { type: 'string', default: String(availableParallelism()) },
  },
});
const lines = Number(values.lines);
const seed = Number(values.seed);
const processes = Number(values.processes);
const { families, deaf } = values;
if (!Number.isSafeInteger(lines) || lines < 100) throw new Error('--lines takes a whole number from 100');
if (!Number.isSafeInteger(seed)) throw new Error('--seed takes a whole number');
if (!Number.isSafeInteger(processes) || processes < 1) throw new Error('--processes takes a whole number from 1');
if (families !== 'unseen' && families !== 'fitted') throw new Error('--families takes unseen or fitted');

const began = performance.now();
const parts = partsOf(lines, seed, { families, deaf });
const tallies = await runAll(parts, processes, (done) => {
  if (process.stderr.isTTY) process.stderr.write(`\r${done} of ${parts.length} parts`);
});
if (process.stderr.isTTY) process.stderr.write('\r\u001b[K');

const isWanted = (part: Part | undefined, wanted: (part: Part) => boolean): boolean => part !== undefined && wanted(part);
const of = (wanted: (part: Part) => boolean): Tally => sum(tallies.filter((_, index) => isWanted(parts[index], wanted)));
const clean = of((part) => part.disturbance === null && !part.pieces);
const disturbed = of((part) => part.disturbance !== null && !part.pieces);
const cleanPieces = of((part) => part.disturbance === null && part.pieces);
const disturbedPieces = of((part) => part.disturbance !== null && part.pieces);
const poured = (disturbance: Part['disturbance']): Tally => of((part) => part.disturbance === disturbance && !part.pieces);

console.log(`${sum(tallies).lines} lines, seed ${seed}, families ${families}${deaf ? ', nobody hears the tone' : ''}\n`);
console.log(
  tableOf([
    ['poured, undisturbed', clean],
    ['poured, disturbed', disturbed],
    ...DISTURBANCES.map((disturbance) => [`  ${disturbance}`, poured(disturbance)] as const),
    ['in pieces, undisturbed', cleanPieces],
    ['in pieces, disturbed', disturbedPieces],
  ]),
);
console.log(`\n${marksTable(marksOf({ clean, cleanPieces, disturbed, disturbedPieces, dropped: poured('object dropped in') }))}`);
console.log(`\nasked on undisturbed lines: ${reasonsOf(clean)}`);
console.log(`\nend of the first pour, undisturbed:\n${endsOf(clean)}`);
console.log(`\n${((performance.now() - began) / 1000).toFixed(0)} s`);
