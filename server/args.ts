import { homedir } from 'node:os';
import { join, resolve } from 'node:path';
import { SCALE_SHAPES, PROBE_SHAPES } from '#lib/measure/shape';
import type { ProbeShape, ScaleShape } from '#lib/measure/shape';
import type { InstrumentConfig } from '#lib/measure/instrument';
import type { SerialSettings } from '#lib/measure/link/port';
import { plateHolds } from '#lib/measure/plate';
import type { ProbeUse } from '#lib/measure/reading';
import { as } from '#lib/units/id';
import { MOST_WEIGHED, MASS_UNITS } from '#lib/units/mass';
import type { MassUnit, Milligrams } from '#lib/units/mass';
import { massOfDecimal } from '#lib/units/parse';
import { meant } from '#lib/protocol/meant';
import { BadOption } from './options';
import { readHostName, refuseTwice } from './option-checks';
import type { Options } from './options';

const FRAMES = ['8N1', '7E1', '7O1', '8E1'] as const satisfies readonly SerialSettings['frame'][];

export const USAGE = `potwatch [options]

  --port N                 port of the web page (default 4173)
  --data DIR               where batches are kept (default ~/.local/share/potwatch)
  --scale practice         the simulated bench
  --scale PATH[,SHAPE[,BAUD[,FRAME]]][,capacity=MASS][,division=MASS]
                           a scale on a serial port; a second --scale is the small, finer one
                           shapes: ${SCALE_SHAPES.join(', ')}; leave it out and the frames say
                           BAUD: 9600 unless given; FRAME: ${FRAMES.join(', ')}, 8N1 unless given
                           capacity: the most it bears, vessel and all; division: the step of its display, as capacity=6kg,division=0.1g.
                           Without them nothing can be said of what it serves, and no large line is offered in parts
  --probe [lye|oils|room|batter|mould=]PATH[,SHAPE[,BAUD]]
                           a probe; may repeat. Without a name the probe's own frames say where it stands
  --host ADDR              listen on this address too (default: this machine only)
  --allow-host NAME        accept this host name in the address bar; may repeat
  --pty-is-real            treat a pseudo-terminal as a real instrument; every record says so
  --seed N                 seed of the simulated bench
  --no-past                practice without its invented half-year of batches and bars
  --help                   this text
`;

const FLAGS = ['port', 'data', 'scale', 'probe', 'host', 'allow-host', 'pty-is-real', 'seed', 'no-past', 'dev', 'help'] as const;
type Flag = (typeof FLAGS)[number];
const BARE: ReadonlySet<Flag> = new Set(['pty-is-real', 'no-past', 'dev', 'help']);
const REPEATS: ReadonlySet<Flag> = new Set(['scale', 'probe', 'allow-host']);
const PROBE_USES = ['lye', 'oils', 'room', 'batter', 'mould'] as const satisfies readonly ProbeUse[];
const LIMITS = ['capacity', 'division'] as const;

/**
 * Reads the command line.
 * @throws BadOption with a sentence for the person; nothing has been touched then.
 * @returns `'help'` when help was asked for.
 */
export const readArgs = (argv: readonly string[], env: Readonly<Record<string, string | undefined>>): Options | 'help' => {
  const given = splitFlags(argv);
  if (given.has('help')) return 'help';
  const one = (flag: Flag): string | null => given.get(flag)?.at(-1) ?? null;
  const scales = given.get('scale') ?? [];
  const practice = scales.includes('practice');
  if (practice && (scales.length > 1 || given.has('probe')))
    throw new BadOption('--scale practice is a whole simulated bench: it cannot stand beside a real --scale or --probe');
  if (scales.length > 2) throw new BadOption('a bench has at most two scales: a big one and a small one');
  const instruments = practice ? [] : [...scales.map(readScale), ...(given.get('probe') ?? []).map(readProbe)];
  refuseTwice(instruments);
  return {
    port: wholeNumber('port', one('port') ?? '4173', 0, 65_535),
    data: resolve(one('data') ?? defaultData(env)),
    host: one('host') ?? '127.0.0.1',
    allowHosts: (given.get('allow-host') ?? []).map(readHostName),
    instruments,
    practice,
    ptyIsReal: given.has('pty-is-real'),
    seed: wholeNumber('seed', one('seed') ?? '41', 0, 0xffff_ffff),
    past: !given.has('no-past'),
    dev: given.has('dev'),
  };
};

const splitFlags = (argv: readonly string[]): Map<Flag, string[]> => {
  const given = new Map<Flag, string[]>();
  for (let i = 0; i < argv.length; i += 1) {
    const word = argv[i] ?? '';
    if (!word.startsWith('--')) throw new BadOption(`"${word}" is no option; options begin with --`);
    const [name, inline] = splitOnce(word.slice(2), '=');
    const flag = FLAGS.find((known) => known === name);
    if (flag === undefined) throw new BadOption(unknownWord(`--${name}`, name, FLAGS, '--'));
    if (given.has(flag) && !REPEATS.has(flag)) throw new BadOption(`--${flag} is given twice`);
    if (BARE.has(flag)) {
      if (inline !== undefined) throw new BadOption(`--${flag} takes no value`);
      given.set(flag, []);
      continue;
    }
    const value = inline ?? argv[(i += 1)];
    if (value === undefined || value === '' || value.startsWith('--')) throw new BadOption(`--${flag} needs a value`);
    given.set(flag, [...(given.get(flag) ?? []), value]);
  }
  return given;
};

const readScale = (text: string, index: number): InstrumentConfig => {
  const [path = '', ...pieces] = text.split(',');
  const [shape, baud, frame, ...rest] = pieces.filter((piece) => !piece.includes('='));
  if (rest.length > 0) throw new BadOption(`--scale ${text}: too many commas; PATH,SHAPE,BAUD,8N1,capacity=6kg,division=0.1g`);
  const small = index > 0;
  return {
    kind: 'scale',
    id: as(small ? 'scale-fine' : 'scale-main'),
    role: small ? 'fine' : 'main',
    name: small ? 'small scale' : 'big scale',
    path: readPath('scale', path),
    shape: shape === undefined || shape === '' ? null : oneOf<ScaleShape>('shape', shape, SCALE_SHAPES),
    serial: readSerial(baud, frame),
    ...readLimits(pieces.filter((piece) => piece.includes('='))),
  };
};

/** What the scale's plate says; `null` for what is left out. */
const readLimits = (pieces: readonly string[]): Record<(typeof LIMITS)[number], Milligrams | null> => {
  const said = { capacity: null as Milligrams | null, division: null as Milligrams | null };
  for (const piece of pieces) {
    const [name, mass = ''] = splitOnce(piece, '=');
    const limit = oneOf(`--scale: "${name}=", which`, name, LIMITS);
    if (said[limit] !== null) throw new BadOption(`--scale: ${limit} is given twice`);
    said[limit] = readMass(limit, mass);
  }
  const { capacity, division } = said;
  if (!plateHolds(capacity, division))
    throw new BadOption(
      '--scale: the division is one step of the display, the capacity the most it bears: the division is the smaller one',
    );
  return said;
};

const readMass = (what: string, text: string): Milligrams => {
  const [, number = '', unit = ''] = /^([\d.]*)(.*)$/.exec(text) ?? [];
  const known = unit === '' ? null : oneOf<MassUnit>('unit', unit, MASS_UNITS);
  const mass = known === null ? null : massOfDecimal(number, known);
  if (mass === null || mass > MOST_WEIGHED)
    throw new BadOption(`${what} "${text}" is no mass up to 50 kg with its unit, such as 6kg or 0.1g`);
  return mass;
};

const readProbe = (text: string, index: number): InstrumentConfig => {
  const [before, after] = splitOnce(text, '=');
  const use = after === undefined ? null : oneOf<ProbeUse>('vessel', before, PROBE_USES);
  const [path = '', shape, baud, ...rest] = (after ?? text).split(',');
  if (rest.length > 0) throw new BadOption(`--probe ${text}: too many commas; PATH,SHAPE,BAUD`);
  return {
    kind: 'probe',
    id: as(use === null ? `probe-${index + 1}` : `probe-${use}`),
    name: use === null ? 'probe' : `${use} probe`,
    path: readPath('probe', path),
    use,
    shape: shape === undefined || shape === '' ? null : oneOf<ProbeShape>('shape', shape, PROBE_SHAPES),
    serial: readSerial(baud, undefined),
  };
};

const readPath = (flag: Flag, path: string): string => {
  if (path.startsWith('/')) return path;
  const practice = flag === 'scale' && meant(path, ['practice']) !== null ? '; did you mean practice?' : '';
  throw new BadOption(`--${flag}: "${path}" is no port${practice || '; a port is a path such as /dev/serial/by-id/…'}`);
};

const readSerial = (baud: string | undefined, frame: string | undefined): SerialSettings => ({
  baudRate: wholeNumber('baud', baud === undefined || baud === '' ? '9600' : baud, 110, 921_600),
  frame: frame === undefined || frame === '' ? '8N1' : oneOf('frame', frame, FRAMES),
});

const oneOf = <T extends string>(what: string, word: string, known: readonly T[]): T => {
  const found = known.find((k) => k === word);
  if (found === undefined) throw new BadOption(unknownWord(`${what} "${word}"`, word, known, ''));
  return found;
};

const wholeNumber = (flag: string, text: string, low: number, high: number): number => {
  const value = Number(text);
  if (!/^\d+$/.test(text) || value < low || value > high)
    throw new BadOption(`${flag} "${text}" is no whole number from ${low} to ${high}`);
  return value;
};

const unknownWord = (shown: string, word: string, known: readonly string[], prefix: string): string => {
  const near = meant(word, known);
  const hint = near === null ? `possible: ${known.map((k) => prefix + k).join(', ')}` : `did you mean ${prefix}${near}?`;
  return `${shown} is not known; ${hint}`;
};

const splitOnce = (text: string, at: string): [string, string?] => {
  const i = text.indexOf(at);
  return i < 0 ? [text] : [text.slice(0, i), text.slice(i + 1)];
};

/** XDG data home: outside the checkout, so that an update or a clean clone never touches batches. */
export function defaultData(env: Readonly<Record<string, string | undefined>>): string {
  const home = env['XDG_DATA_HOME'];
  return join(home !== undefined && home.startsWith('/') ? home : join(homedir(), '.local', 'share'), 'potwatch');
}
