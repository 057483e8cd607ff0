/**
 * Ready dates and weights of curing bars against bricks that dry by finite volumes: `npm run calibration:cure -- [--curves N] [--seed S]`.
 *
 * Ten lots to a maker, in the order they are made; what the program has learned of the maker by then is what it forecasts with. Each lot is
 * forecast at cutting, after two weeks and after four, by what a scale says of a few bars. The truth (`cure/brick.ts`) is a brick with a
 * diffusivity that depends on its water, an isotherm, seasons, spells and moves: no law, belief or code of the program is in it.
 *
 * Fails unless the 90 % interval of the ready date holds the truth in 85 to 95 of 100.
 */
import { parseArgs } from 'node:util';
import { runMaker, STAGES, type Told } from './cure/run';
import { quantile } from './interval';

const { values } = parseArgs({ options: { curves: { type: 'string', default: '1000' }, seed: { type: 'string', default: '1' } } });
const [curves, seed] = [Number(values.curves), Number(values.seed)];
const LOTS = 10;
if (!Number.isSafeInteger(curves) || curves < 100 || curves % LOTS !== 0) throw new Error('--curves takes tens, from 100');
if (!Number.isSafeInteger(seed)) throw new Error('--seed takes a whole number');

const WITHIN = [0.85, 0.95] as const;
const began = performance.now();
const all: Told[] = [];
for (let maker = 0; maker < curves / LOTS; maker += 1) {
  all.push(...runMaker(seed, maker, LOTS));
  if (process.stderr.isTTY) process.stderr.write(`\r${LOTS * (maker + 1)} of ${curves} curves`);
}
if (process.stderr.isTTY) process.stderr.write('\r\u001b[K');

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`.padStart(8);
const held = (told: readonly Told[], of: (one: Told) => boolean): string => percent(told.filter(of).length / Math.max(1, told.length));
const days = (value: number): string => (Number.isFinite(value) ? value.toFixed(0) : 'later').padStart(6);

console.log(`${curves} curves, seed ${seed}; 90 % intervals`);
console.log(
  '\nready by loss a week        held   below   above   width (median, days)   open-ended   truly later   weight day 60   day 120',
);
const line = (name: string, told: readonly Told[]): void =>
  console.log(
    [
      name.padEnd(22),
      held(told, ({ ready }) => ready.inside),
      held(told, ({ ready }) => ready.below),
      held(told, ({ ready }) => ready.above),
      days(
        quantile(
          told.map(({ ready }) => ready.width),
          0.5,
        ),
      ).padStart(12),
      held(told, ({ ready }) => !Number.isFinite(ready.width)).padStart(18),
      held(told, ({ ready }) => !Number.isFinite(ready.truth)).padStart(13),
      held(told, ({ weight60 }) => weight60).padStart(15),
      held(told, ({ weight120 }) => weight120).padStart(11),
    ].join(' '),
  );
for (const stage of STAGES)
  line(
    stage.name,
    all.filter((one) => one.stage === stage),
  );
line(
  'unmoved rooms',
  all.filter(({ moved }) => !moved),
);
line(
  'moved rooms',
  all.filter(({ moved }) => moved),
);
line(
  'first lot',
  all.filter(({ lot }) => lot === 0),
);
line(
  'sixth lot and later',
  all.filter(({ lot }) => lot >= 5),
);
line('all', all);
const finite = all.filter(({ ready }) => Number.isFinite(ready.width)).map(({ ready }) => ready.width);
console.log(`\nmedian width of those with an end: ${days(quantile(finite, 0.5)).trim()} days`);

const share = all.filter(({ ready }) => ready.inside).length / all.length;
const met = share >= WITHIN[0] && share <= WITHIN[1];
console.log(
  `\nheld ${percent(share).trim()} (85 to 95 asked): ${met ? 'met' : 'NOT MET'}; ${((performance.now() - began) / 1000).toFixed(0)} s`,
);
if (!met) process.exitCode = 1;
