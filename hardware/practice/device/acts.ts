import * as z from 'zod/mini';
import { meant } from '#lib/protocol/meant';
import { PROBE_WORDS } from '../encode/probe-line';

const grams = z.number().check(z.gt(0), z.lte(1e6));
const seconds = z.number().check(z.gt(0), z.lte(3_600));
const name = z.string().check(z.minLength(1), z.maxLength(80));

/** What the instrument can be told, one JSON object a line. */
const deviceAct = z.discriminatedUnion('act', [
  /** A vessel of this mass; one known by this name comes back with what is in it, and needs no mass. */
  z.object({ act: z.literal('set-down'), grams: z.optional(grams), name: z.optional(name) }),
  z.object({ act: z.literal('lift') }),
  /** Exactly this much into what stands there. */
  z.object({ act: z.literal('pour'), grams, seconds: z.optional(seconds) }),
  /** By eye, as a person would: near it, not exactly. */
  z.object({ act: z.literal('pour-by-eye'), grams, tolerance: z.optional(grams) }),
  /** Exactly this much out of what stands there. */
  z.object({ act: z.literal('take-out'), grams, seconds: z.optional(seconds) }),
  /** Ends a pour early. */
  z.object({ act: z.literal('stop') }),
  z.object({ act: z.literal('splash') }),
  /** A probe, spoon or cable leans on the pan; 0 takes it away. */
  z.object({ act: z.literal('lean'), grams: z.number().check(z.gte(0), z.lte(1_000)) }),
  /** Shakes the bench. */
  z.object({ act: z.literal('noise'), grams: z.optional(grams), seconds: z.optional(seconds) }),
  z.object({ act: z.literal('zero-key') }),
  z.object({ act: z.literal('unit'), unit: z.enum(['g', 'kg', 'oz', 'lb']) }),
  z.object({ act: z.literal('stop-frames') }),
  z.object({ act: z.literal('start-frames') }),
  z.object({ act: z.literal('unplug') }),
  z.object({ act: z.literal('plug') }),
  z.object({ act: z.literal('truth') }),
  z.object({ act: z.literal('make-lye') }),
  z.object({ act: z.literal('warm') }),
  z.object({ act: z.literal('cool') }),
  z.object({ act: z.literal('hurry'), times: z.number().check(z.gte(1), z.lte(60)) }),
  /** The probe says a word instead of a number. */
  z.object({ act: z.literal('ail'), word: z.enum(PROBE_WORDS) }),
  /** The probe wrongly reads this. */
  z.object({ act: z.literal('read-as'), celsius: z.number().check(z.gte(-200), z.lte(999)) }),
  z.object({ act: z.literal('well') }),
  z.object({ act: z.literal('help') }),
]);
export type DeviceAct = z.infer<typeof deviceAct>;

/** The words a person types: the act, then its values in this order. */
const ORDER: Readonly<Record<DeviceAct['act'], readonly string[]>> = {
  'set-down': ['grams', 'name'],
  lift: [],
  pour: ['grams', 'seconds'],
  'pour-by-eye': ['grams', 'tolerance'],
  'take-out': ['grams', 'seconds'],
  stop: [],
  splash: [],
  lean: ['grams'],
  noise: ['grams', 'seconds'],
  'zero-key': [],
  unit: ['unit'],
  'stop-frames': [],
  'start-frames': [],
  unplug: [],
  plug: [],
  truth: [],
  'make-lye': [],
  warm: [],
  cool: [],
  hurry: ['times'],
  ail: ['word'],
  'read-as': ['celsius'],
  well: [],
  help: [],
};
export const ACTS = Object.keys(ORDER) as readonly DeviceAct['act'][];

/** One line each, for a person at the terminal. */
export const actsHelp = (): string =>
  ACTS.map((act) => ['  ', act, ...ORDER[act].map((value) => ` ${value.toUpperCase()}`)].join('')).join('\n');

/** @returns the act, or in `why` what is wrong with the line. */
export const readAct = (line: string): DeviceAct | { readonly act: null; readonly why: string } => {
  const told = line.startsWith('{') ? fromJson(line) : fromWords(line);
  const parsed = deviceAct.safeParse(told);
  if (parsed.success) return parsed.data;
  const word = typeof told === 'object' && told !== null && 'act' in told ? String(told.act) : '';
  const act = ACTS.find((known) => known === word);
  if (act !== undefined) return { act: null, why: `usage: ${[act, ...ORDER[act].map((value) => value.toUpperCase())].join(' ')}` };
  const near = meant(word, ACTS);
  return { act: null, why: near === null ? 'not understood; type help' : `did you mean ${near}?` };
};

const fromJson = (line: string): unknown => {
  try {
    return JSON.parse(line) as unknown;
  } catch {
    return null;
  }
};

/** `set-down 350 lye jug`: a last value takes the rest of the line, so that names may have spaces. */
const fromWords = (line: string): unknown => {
  const [act = '', ...values] = line.trim().split(/\s+/);
  const known = ACTS.find((one) => one === act);
  if (known === undefined) return { act };
  const order = ORDER[known];
  const told: Record<string, unknown> = { act };
  for (const [i, key] of order.entries()) {
    const value = i === order.length - 1 ? values.slice(i).join(' ') : values[i];
    if (value !== undefined && value !== '') told[key] = TEXTS.has(key) ? value : Number(value);
  }
  // A name may come without a mass: `set-down pot`.
  if (act === 'set-down' && Number.isNaN(told['grams'])) return { act, name: values.join(' ') };
  return values.length > order.length && !TEXTS.has(order.at(-1) ?? '') ? { act, extra: values } : told;
};
const TEXTS: ReadonlySet<string> = new Set(['name', 'unit', 'word']);
