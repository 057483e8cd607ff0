/**
 * The stop cue and its tone on hands drawn here: `npm run calibration:cue -- [--hands N] [--seed S] [--pours N]`.
 *
 * Each person pours five lines that the bench learns from, then the same lines in three manners: stopped when the figure shows the target,
 * stopped by the figure with what the person allows for, and by the bench's cue and tone. The practice pourer goes likewise, with and
 * without the cue. Error: |landed − target| in tolerances, before anything is topped up.
 *
 * Fails when the cued error is more than half of the uncued one, or a hand is missing.
 */
import { parseArgs } from 'node:util';
import { practicePours } from './cue/practice';
import { runHands } from './cue/run';

const { values } = parseArgs({
  options: {
    hands: { type: 'string', default: '30' },
    seed: { type: 'string', default: '1' },
    pours: { type: 'string', default: '6' },
  },
});
const [hands, seed, pours] = [values.hands, values.seed, values.pours].map(Number) as [number, number, number];
if (![hands, seed, pours].every(Number.isSafeInteger) || hands < 1 || pours < 1)
  throw new Error('--hands, --seed and --pours take whole numbers');

const LEARNING = 5;
const HALF = 0.5;
const mean = (all: readonly number[]): number => all.reduce((sum, one) => sum + one, 0) / all.length;
const two = (value: number): string => value.toFixed(2).padStart(6);

const people = Array.from({ length: hands }, (_, n) => runHands(seed * 100 + n, LEARNING, pours));
console.log('hand  pours             figure  guess  fixed    cue   over  short  learnt');
for (const [n, { person, learnt, ...one }] of people.entries()) {
  const learntWords = `${learnt.lag} ms of ${learnt.seen}`;
  const row = [one.figure, one.guess, one.fixed, one.cue, one.over, one.short].map(two).join(' ');
  console.log(`${String(n + 1).padStart(4)}  ${person.kind.padEnd(16)} ${row}  ${learntWords}`);
}
const of = (what: 'figure' | 'guess' | 'fixed' | 'cue' | 'over' | 'short'): number => mean(people.map((one) => one[what]));
console.log(
  `mean over ${people.length} hands: uncued ${two(of('figure'))}, uncued and allowing for it ${two(of('guess'))}, ` +
    `cue before learning ${two(of('fixed'))}, cue after ${LEARNING} pours ${two(of('cue'))}; over ${two(of('over'))}, short ${two(of('short'))}`,
);
const practice = practicePours(seed, LEARNING, 4 * pours);
console.log(
  `practice pourer, unpractised: uncued ${two(practice.uncued)}, by the cue after ${LEARNING} pours ${two(practice.cued)}; practised, by eye ${two(practice.practised)}`,
);

const halved = people.filter((one) => one.cue <= HALF * one.guess).length;
console.log(`at most half of their own uncued error: ${halved} of ${people.length} hands`);
const ratios = { hands: of('cue') / of('guess'), practice: practice.cued / practice.uncued };
console.log(
  `cued over uncued: hands ${two(ratios.hands)} (against those who allow for it), practice pourer ${two(ratios.practice)}; at most ${HALF}`,
);
if (!(ratios.hands <= HALF && ratios.practice <= HALF)) process.exitCode = 1;
