import type { InstrumentConfig, ScaleRole } from '#lib/measure/instrument';
import type { SerialSettings } from '#lib/measure/link/port';
import { plateHolds } from '#lib/measure/plate';
import type { ProbeUse } from '#lib/measure/reading';
import type { ProbeShape, ScaleShape } from '#lib/measure/shape';
import { as } from '#lib/units/id';
import { massOfDecimal, readNumber } from '#lib/units/parse';
import { MOST_WEIGHED } from '#lib/units/mass';
import type { Milligrams } from '#lib/units/mass';
import { messages } from '../messages';

/** The form as typed: text throughout. */
export interface Typed {
  /** Set while an instrument that stands here already is changed. */
  readonly id: string | null;
  readonly kind: InstrumentConfig['kind'];
  readonly name: string;
  /** A listed port, `other` or nothing yet. */
  readonly port: string;
  readonly path: string;
  readonly role: ScaleRole;
  readonly use: ProbeUse | '';
  readonly shape: ScaleShape | ProbeShape | '';
  readonly baud: string;
  readonly frame: SerialSettings['frame'];
  readonly capacity: string;
  readonly division: string;
}
export type Field = 'name' | 'port' | 'path' | 'capacity' | 'division';
export type Errors = Readonly<Partial<Record<Field, string>>>;

export const OTHER = 'other';
export const BAUDS = ['1200', '2400', '4800', '9600', '19200', '38400', '57600', '115200'] as const;
export const FRAMES = ['8N1', '7E1', '7O1', '8E1'] as const;
const LONGEST_NAME = 40;

export const EMPTY: Typed = {
  id: null,
  kind: 'scale',
  name: messages.roles.main,
  port: '',
  path: '',
  role: 'main',
  use: 'oils',
  shape: '',
  baud: '9600',
  frame: '8N1',
  capacity: '',
  division: '',
};

const gramsOf = (mass: Milligrams | null): string => (mass === null ? '' : String(mass / 1000));

/** The form filled with what stands here already. */
export const typedOf = (config: InstrumentConfig, listed: readonly string[]): Typed => {
  const known = listed.includes(config.path);
  const common = {
    ...EMPTY,
    id: config.id,
    name: config.name,
    port: known ? config.path : OTHER,
    path: known ? '' : config.path,
    shape: config.shape ?? ('' as const),
    baud: String(config.serial.baudRate),
    frame: config.serial.frame,
  };
  return config.kind === 'scale'
    ? { ...common, kind: 'scale', role: config.role, capacity: gramsOf(config.capacity), division: gramsOf(config.division) }
    : { ...common, kind: 'probe', use: config.use ?? '' };
};

type Read = { readonly ok: true; readonly mass: Milligrams | null } | { readonly ok: false; readonly why: string };

/** Grams as typed; a number that reads two ways is taken in neither. */
const readGrams = (text: string): Read => {
  const { errors } = messages.bind;
  if (text.trim() === '') return { ok: true, mass: null };
  const read = readNumber(text);
  if (read.kind === 'ambiguous') return { ok: false, why: errors.ambiguous(...read.readings) };
  if (read.kind !== 'number') return { ok: false, why: errors.number };
  const mass = massOfDecimal(read.decimal, 'g');
  if (mass === null) return { ok: false, why: errors.number };
  return mass > MOST_WEIGHED ? { ok: false, why: errors.range } : { ok: true, mass };
};

const pathOf = ({ port, path }: Typed): string => (port === OTHER ? path.trim() : port);

/** The id says the place: what is bound to the same place later replaces it. One that has changed places meanwhile keeps its id for itself. */
const idOf = ({ id, kind, role, use }: Typed, bound: readonly InstrumentConfig[]): string => {
  if (id !== null) return id;
  const own = kind === 'scale' ? `scale-${role}` : `probe-${use === '' ? 'own' : use}`;
  const holder = bound.find((one) => one.id === own);
  const moved = holder !== undefined && (holder.kind === 'scale' ? holder.role !== role : holder.use !== (use === '' ? null : use));
  return moved ? `${own}-2` : own;
};

/** What the form says, or what in it needs another look. */
export const bindingOf = (
  typed: Typed,
  bound: readonly InstrumentConfig[],
): { readonly ok: true; readonly config: InstrumentConfig } | { readonly ok: false; readonly errors: Errors } => {
  const words = messages.bind.errors;
  const name = typed.name.trim();
  const path = pathOf(typed);
  const capacity = readGrams(typed.capacity);
  const division = readGrams(typed.division);
  const scale = typed.kind === 'scale';
  const errors: Partial<Record<Field, string>> = {};
  if (name === '' || name.length > LONGEST_NAME) errors.name = words.name;
  if (typed.port === '') errors.port = words.port;
  else if (typed.port === OTHER && !/^\/.{1,250}$/.test(path)) errors.path = words.path;
  if (scale && !capacity.ok) errors.capacity = capacity.why;
  if (scale && !division.ok) errors.division = division.why;
  if (scale && capacity.ok && division.ok && !plateHolds(capacity.mass, division.mass)) errors.division = words.order;
  if (Object.keys(errors).length > 0) return { ok: false, errors };
  const common = {
    id: as<InstrumentConfig['id']>(idOf(typed, bound)),
    name,
    path,
    serial: { baudRate: Number(typed.baud), frame: typed.frame },
  };
  return {
    ok: true,
    config: scale
      ? {
          ...common,
          kind: 'scale',
          role: typed.role,
          shape: typed.shape === '' || typed.shape === 'probe-line' ? null : typed.shape,
          capacity: capacity.ok ? capacity.mass : null,
          division: division.ok ? division.mass : null,
        }
      : {
          ...common,
          kind: 'probe',
          use: typed.use === '' ? null : typed.use,
          shape: typed.shape === 'probe-line' ? typed.shape : null,
        },
  };
};
