/**
 * One simulated line from beginning to end, to see why it went as it did:
 * `npx tsx tests/benchmark/calibration/look.ts --seed S [--mishap NAME] [--pieces] [--families unseen|fitted] [--every MS]`. Masses in g.
 */
import { parseArgs } from 'node:util';
import { DISTURBANCES } from './disturb';
import { runLines } from './line';

const { values } = parseArgs({
  options: {
    seed: { type: 'string', default: '1' },
    mishap: { type: 'string' },
    pieces: { type: 'boolean', default: false },
    families: { type: 'string', default: 'unseen' },
    every: { type: 'string', default: '200' },
  },
});
const disturbance = DISTURBANCES.find((name) => name === values.mishap) ?? null;
if (values.mishap !== undefined && disturbance === null) throw new Error(`--mishap takes one of: ${DISTURBANCES.join(', ')}`);

const g = (mass: number | null): string => (mass === null ? '–' : (mass / 1000).toFixed(2));

let last = '';
const results = runLines({
  seed: Number(values.seed),
  families: values.families === 'fitted' ? 'fitted' : 'unseen',
  disturbance,
  pieces: values.pieces,
  watch: (world, cue, shown) => {
    const state = [cue.phase, cue.block ?? '', cue.doubts.join('+')].join(' ');
    if (state === last && world.now % Number(values.every) !== 0) return;
    last = state;
    const truth = `in ${g(world.perLine[world.line] ?? 0)} foreign ${g(world.foreign)} loose ${g(world.loose)} push ${g(world.push)}`;
    const seen = `shown ${g(shown)} net ${g(cue.poured)} of ${g(cue.target)} ± ${g(cue.tolerance)}`;
    console.log(`${(world.now / 1000).toFixed(2).padStart(7)} on ${world.support.toFixed(2)} ${truth} | ${seen} | ${state}`);
  },
});
for (const result of results) console.log(result);
