import { isAbsolute, resolve } from 'node:path';
import { PROBE_SHAPES, SCALE_SHAPES } from '#lib/measure/shape';
import type { ScaleShape, Shape } from '#lib/measure/shape';
import { meant } from '#lib/protocol/meant';
import type { MassUnit } from '#lib/units/mass';
import { holds, UNITS } from '../encode/index';
import { WARM_PLACES } from '../world/warmth';
import type { WarmPlace } from '../world/warmth';

export const USAGE = `npm run device -- --shape NAME --pty PATH [options]

A simulated instrument that speaks on a pseudo-terminal made with socat; PATH becomes a link to it.

  --shape NAME       ${[...SCALE_SHAPES, ...PROBE_SHAPES].join(', ')}
  --pty PATH         where the link goes
  --rate N           frames a second (default 10, a probe 1); 0: a scale speaks only when asked
  --unit g|kg|oz|lb  unit the scale starts in (default: the first its shape can state)
  --capacity GRAMS   (default 5000)
  --division GRAMS   (default 0.1)
  --channel NAME     for a probe: ${WARM_PLACES.join(', ')} (default lye)
  --seed N           (default 1)
  --help             this text

On its standard input it takes plain words ("set-down 350 pot", "pour 250", "lift", "help") or JSON lines
({"act":"pour","grams":250,"seconds":4}); on its standard output it writes JSON lines, the truth among them.
`;

export type DeviceOptions = {
  readonly pty: string;
  readonly seed: number;
  readonly rate: number;
} & (
  | { readonly kind: 'scale'; readonly shape: ScaleShape; readonly unit: MassUnit; readonly capacity: number; readonly division: number }
  | { readonly kind: 'probe'; readonly channel: WarmPlace }
);

/** What is wrong with the command line, in words for the person. */
export class BadFlag extends Error {}

const FLAGS = ['shape', 'pty', 'rate', 'unit', 'capacity', 'division', 'channel', 'seed', 'help'] as const;
type Flag = (typeof FLAGS)[number];

/** @throws BadFlag before anything was touched. */
export const readArgs = (argv: readonly string[]): DeviceOptions | 'help' => {
  const given = split(argv);
  if (given.has('help')) return 'help';
  const shape = oneOf<Shape>('shape', given.get('shape'), [...SCALE_SHAPES, ...PROBE_SHAPES]);
  const pty = given.get('pty');
  if (pty === undefined) throw new BadFlag('--pty PATH is missing: where the link to the pseudo-terminal goes');
  const common = {
    pty: isAbsolute(pty) ? pty : resolve(pty),
    seed: number('seed', given.get('seed') ?? '1', 0, 0xffff_ffff),
    rate: number('rate', given.get('rate') ?? (shape === 'probe-line' ? '1' : '10'), shape === 'probe-line' ? 0.1 : 0, 100),
  };
  if (shape === 'probe-line') {
    refuse(given, ['unit', 'capacity', 'division'], 'a probe has none');
    return { kind: 'probe', ...common, channel: oneOf('channel', given.get('channel') ?? 'lye', WARM_PLACES) };
  }
  refuse(given, ['channel'], 'a scale has none');
  return { kind: 'scale', ...common, shape, ...scaleSize(given, shape) };
};

const scaleSize = (given: ReadonlyMap<Flag, string>, shape: ScaleShape): { unit: MassUnit; capacity: number; division: number } => {
  const unit = oneOf('unit', given.get('unit') ?? UNITS[shape][0], UNITS[shape]);
  const capacity = Math.round(number('capacity', given.get('capacity') ?? '5000', 1, 1e6) * 1_000);
  const division = Math.round(number('division', given.get('division') ?? '0.1', 0.001, 1_000) * 1_000);
  if (!holds(shape, capacity, division, unit))
    throw new BadFlag(`a ${shape} frame has no room for ${capacity / 1_000} g in steps of ${division / 1_000} g stated in ${unit}`);
  return { unit, capacity, division };
};

const split = (argv: readonly string[]): Map<Flag, string> => {
  const given = new Map<Flag, string>();
  for (let i = 0; i < argv.length; i += 1) {
    const word = argv[i] ?? '';
    const [name = '', inline] = word.startsWith('--') ? word.slice(2).split(/=(.*)/s) : [''];
    const flag = FLAGS.find((known) => known === name);
    if (flag === undefined) throw new BadFlag(`${word} is not known; ${suggest(name || word, FLAGS, '--')}`);
    if (given.has(flag)) throw new BadFlag(`--${flag} is given twice`);
    const value = flag === 'help' ? '' : (inline ?? argv[(i += 1)]);
    if (value === undefined || value.startsWith('--')) throw new BadFlag(`--${flag} needs a value`);
    given.set(flag, value);
  }
  return given;
};

const refuse = (given: ReadonlyMap<Flag, string>, flags: readonly Flag[], why: string): void => {
  const stray = flags.find((flag) => given.has(flag));
  if (stray !== undefined) throw new BadFlag(`--${stray}: ${why}`);
};

/** How a misspelt word is answered. */
const suggest = (word: string, known: readonly string[], prefix: string): string => {
  const near = meant(word, known);
  return near === null ? `possible: ${known.map((k) => prefix + k).join(', ')}` : `did you mean ${prefix}${near}?`;
};

const oneOf = <T extends string>(flag: Flag, word: string | undefined, known: readonly T[]): T => {
  if (word === undefined) throw new BadFlag(`--${flag} is missing; possible: ${known.join(', ')}`);
  const found = known.find((k) => k === word);
  if (found === undefined) throw new BadFlag(`--${flag} ${word} is not known; ${suggest(word, known, '')}`);
  return found;
};

const number = (flag: Flag, text: string, low: number, high: number): number => {
  const value = Number(text);
  if (text.trim() === '' || !(value >= low && value <= high)) throw new BadFlag(`--${flag} ${text} is no number from ${low} to ${high}`);
  return value;
};
